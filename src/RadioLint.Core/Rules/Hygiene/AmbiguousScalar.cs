using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Text;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8006: a plain scalar that readers of YAML 1.1 and 1.2 take for different things.</summary>
public static class AmbiguousScalar
{
    public static readonly Descriptor Rule = new(
        "RL8006", Severity.Error, "Scalar that YAML readers take differently",
        "YAML 1.2.2 section 10.3 (core schema) against the types of YAML 1.1", "0.1")
    {
        IsFixed = true,
    };

    private static readonly string[] Truths = ["yes", "no", "on", "off", "y", "n"];

    /// <summary>True for a word that YAML 1.1 reads as true or false and YAML 1.2 as text.</summary>
    public static bool IsTruth(LocatedScalar scalar) =>
        !scalar.IsQuoted && Array.Exists(Truths, word => string.Equals(word, scalar.Text, StringComparison.OrdinalIgnoreCase));

    /// <summary>True for a number that the two read differently: octal, binary, underscores, base 60, exponents.</summary>
    public static bool IsNumber(LocatedScalar scalar)
    {
        var text = scalar.Text;
        if (scalar.IsQuoted || text.Length < 2 || text[0] is not (>= '0' and <= '9'))
            return false;
        var isOctal = text[0] == '0' && text.All(c => c is >= '0' and <= '9');
        var hasPrefix = text.StartsWith("0b", StringComparison.Ordinal) || text.StartsWith("0o", StringComparison.Ordinal);
        var hasSeparator = text.All(c => c is (>= '0' and <= '9') or '_' or ':') && text.IndexOfAny(['_', ':']) > 0;
        return isOctal || hasPrefix || hasSeparator || IsExponent(text);
    }

    /// <summary>A plain word or number that must be quoted, or written as <paramref name="instead"/> says.</summary>
    public static Finding At(LocatedScalar scalar, string expected, string? instead = null) =>
        new(Rule, scalar.Place, $"{Difference(scalar)}; {expected} is expected",
            instead is null ? $"quote it: \"{scalar.Text}\", if that is what is meant" : $"write {instead}")
        {
            IsTelling = true,
            Fixes = instead is not null
                ? ImmutableArray<Fix>.Empty
                : ImmutableArray.Create(Remedy.Offer(scalar.Place, $"\"{scalar.Text}\"", "Quote it")),
        };

    /// <summary>A truth of YAML 1.1 where one word of the manifest says the same.</summary>
    public static Finding Meant(LocatedScalar scalar, string expected, string word) =>
        At(scalar, expected, $"`{word}`") with { Fixes = Remedy.Write(scalar, scalar.Text, word) };

    /// <summary>True for `no`, `off` and `n`.</summary>
    public static bool IsNegative(LocatedScalar scalar) => scalar.Text[0] is 'n' or 'N' || scalar.Text.Length == "off".Length && scalar.Text[0] is 'o' or 'O';

    private static string Difference(LocatedScalar scalar) => IsTruth(scalar)
        ? $"`{scalar.Text}` is {(IsNegative(scalar) ? "false" : "true")} to readers of YAML 1.1 and text to those of YAML 1.2"
        : $"`{scalar.Text}` is of a form that YAML 1.1 and YAML 1.2 read differently";

    private static bool IsExponent(string text)
    {
        var e = text.IndexOfAny(['e', 'E']);
        return e > 0 && e < text.Length - 1
            && text.Substring(0, e).All(c => c is (>= '0' and <= '9') or '.')
            && text.Substring(e + 1).TrimStart('+', '-').All(c => c is >= '0' and <= '9');
    }
}
