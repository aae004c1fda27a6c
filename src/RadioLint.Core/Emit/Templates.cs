using System.Text;

namespace RadioLint.Emit;

/// <summary>The texts of templates by file name: the user's where there is one, else the built-in.</summary>
public sealed class Templates(Func<string, string?> overrides)
{
    private const string Folder = "templates/firmware/";

    /// <summary>The built-in templates alone.</summary>
    public static readonly Templates BuiltIn = new(_ => null);

    /// <summary>File names of the built-in templates, in ordinal order.</summary>
    public static IReadOnlyList<string> Names { get; } =
    [
        .. typeof(Templates).Assembly.GetManifestResourceNames()
            .Where(name => name.StartsWith(Folder, StringComparison.Ordinal)).Select(name => name[Folder.Length..]).Order(StringComparer.Ordinal),
    ];

    /// <summary>The text with LF line ends; null when neither the user nor RadioLint has a template of this name.</summary>
    public string? this[string name] => IsPlain(name) ? Normal(overrides(name) ?? Embedded(name)) : null;

    /// <summary>A file name without folders, so that a template reaches nothing but its neighbours.</summary>
    public static bool IsPlain(string name) =>
        name.Length is > 0 and <= 64 && name[0] != '.' && name.All(c => char.IsAsciiLetterOrDigit(c) || c is '.' or '_' or '-');

    private static string? Embedded(string name)
    {
        using var stream = typeof(Templates).Assembly.GetManifestResourceStream(Folder + name);
        if (stream is null)
            return null;
        using var reader = new StreamReader(stream, Encoding.UTF8);
        return reader.ReadToEnd();
    }

    // One byte-order mark would end up in the header; the engine copies line ends as they are.
    private static string? Normal(string? text) =>
        text?.TrimStart('\uFEFF').Replace("\r\n", "\n", StringComparison.Ordinal).Replace('\r', '\n');
}
