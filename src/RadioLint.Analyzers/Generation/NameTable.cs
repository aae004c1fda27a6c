namespace RadioLint.Analyzers.Generation;

/// <summary>
/// The names of one scope. Two that become equal are told apart by a number at the later one; the manifest's order decides, so the same
/// manifest gives the same names. Case counts as equal: files are named after classes, and not every file system tells case apart.
/// </summary>
/// <param name="kind">Follows a name that the scope needs itself: `Node`.</param>
/// <param name="taken">Names that the scope needs itself.</param>
internal sealed class NameTable(string kind, IEnumerable<string> taken, List<Remark> clashes)
{
    private readonly HashSet<string> own = new(taken, StringComparer.OrdinalIgnoreCase);
    private readonly Dictionary<string, string> users = new(StringComparer.OrdinalIgnoreCase);

    /// <summary>A name for what the manifest calls <paramref name="written"/>.</summary>
    /// <param name="derived">What follows the name in further members of the same scope: `Raw`.</param>
    public string Take(string written, params string[] derived)
    {
        var plain = CSharp.Pascal(written);
        if (own.Contains(plain))
            plain += kind;
        var name = plain;
        for (var number = 2; !IsFree(name, derived); number++)
            name = plain + CSharp.Number(number);
        if (name != plain)
        {
            var clash = derived.Select(ending => plain + ending).Prepend(plain).FirstOrDefault(users.ContainsKey);
            var other = clash is null ? "a name that the generated code needs itself" : $"`{users[clash]}`";
            clashes.Add(new($"`{written}` and {other} both become `{clash ?? plain}` in C#, and the later one is called `{name}`; rename one of the two"));
        }
        users[name] = written;
        foreach (var ending in derived)
            users[name + ending] = written;
        return name;
    }

    private bool IsFree(string name, string[] derived) =>
        IsFree(name) && derived.All(ending => IsFree(name + ending));

    private bool IsFree(string name) => !users.ContainsKey(name) && !own.Contains(name);
}
