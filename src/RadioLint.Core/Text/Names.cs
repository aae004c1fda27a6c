using System.Text;

namespace RadioLint.Text;

/// <summary>The form of the manifest's names and what they become in code.</summary>
public static class Names
{
    /// <summary>The most characters that a name may have: identifiers of 31 characters are told apart everywhere (ISO C 1999 5.2.4.1), prefixes included less.</summary>
    public const int Longest = 31;

    private static readonly HashSet<string> C = Words(
        "auto break case char const continue default do double else enum extern float for goto if inline int long register restrict return " +
        "short signed sizeof static struct switch typedef union unsigned void volatile while alignas alignof bool constexpr false nullptr " +
        "static_assert thread_local true typeof typeof_unqual " +
        // No words of the language, but macros: gcc's own dialects define the first two, common system headers the others.
        "linux unix errno stdin stdout stderr");

    private static readonly HashSet<string> Cpp = Words(
        "and and_eq asm bitand bitor catch char8_t char16_t char32_t class compl concept consteval constinit const_cast co_await co_return " +
        "co_yield decltype delete dynamic_cast explicit export friend mutable namespace new noexcept not not_eq operator or or_eq private " +
        "protected public reinterpret_cast requires static_cast template this throw try typeid typename using virtual wchar_t xor xor_eq");

    private static readonly HashSet<string> CSharp = Words(
        "abstract as base byte checked decimal delegate event finally fixed foreach implicit in interface internal is lock null object out " +
        "override params readonly ref sbyte sealed stackalloc string uint ulong unchecked unsafe ushort");

    /// <summary>True for lower-case letters, digits and single inner hyphens, a letter first.</summary>
    public static bool IsWellFormed(string name)
    {
        if (name.Length is 0 or > Longest || name[0] is not (>= 'a' and <= 'z'))
            return false;
        for (var i = 1; i < name.Length; i++)
        {
            var c = name[i];
            if (c is (>= 'a' and <= 'z') or (>= '0' and <= '9'))
                continue;
            if (c != '-' || i == name.Length - 1 || name[i + 1] == '-')
                return false;
        }
        return true;
    }

    /// <summary>The language that reserves the name, or null.</summary>
    public static string? ReservedIn(string name)
    {
        var identifier = Identifier(name);
        return C.Contains(identifier) ? "C" : Cpp.Contains(identifier) ? "C++" : CSharp.Contains(identifier) ? "C#" : null;
    }

    /// <summary>The name as an identifier of C: hyphens and blanks become underscores.</summary>
    public static string Identifier(string name) => name.Replace('-', '_').Replace(' ', '_');

    /// <summary>The nearest well-formed name.</summary>
    public static string Mend(string name)
    {
        var text = new StringBuilder();
        foreach (var c in name.ToLowerInvariant())
        {
            if (c is (>= 'a' and <= 'z') or (>= '0' and <= '9'))
                text.Append(c);
            else if (text.Length > 0 && text[text.Length - 1] != '-')
                text.Append('-');
        }
        var mended = text.ToString().Trim('-');
        if (mended.Length == 0 || mended[0] is >= '0' and <= '9')
            mended = "n-" + mended;
        return (mended.Length > Longest ? mended.Substring(0, Longest) : mended).Trim('-');
    }

    private static HashSet<string> Words(string words) => new(words.Split(' '), StringComparer.Ordinal);
}
