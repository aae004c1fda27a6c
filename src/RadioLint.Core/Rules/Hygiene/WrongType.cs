using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Text;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8004: a value of another kind than the key takes, or none where one is needed.</summary>
public static class WrongType
{
    public static readonly Descriptor Rule = new(
        "RL8004", Severity.Error, "Wrong kind of value", "the tables of docs/manifest.md", "0.1")
    {
        IsFixed = true,
    };

    public static Finding At(Place place, string found, string expected) =>
        new(Rule, place, $"{found} stands where {expected} is expected", $"write {expected}");

    /// <summary>A quantity of another kind: a voltage for a power level.</summary>
    public static Finding OtherKind(Place place, string found, string kind, string expected) =>
        new(Rule, place, $"`{found}` is {kind}; {expected} is expected", $"write {expected}");

    /// <summary>A value of which we know what was meant.</summary>
    internal static Finding Meant(LocatedScalar scalar, string message, string meant) =>
        new(Rule, scalar.Place, message, $"write `{meant}`") { IsTelling = true, Fixes = Remedy.Write(scalar, scalar.Text, meant) };

    /// <summary>A value of which we know what is wrong.</summary>
    public static Finding Because(Place place, string message, string help) => new(Rule, place, message, help) { IsTelling = true };

    public static Finding Empty(Place place, string key, string expected) =>
        new(Rule, place, $"the key `{key}` has no value", $"write {expected}, or leave the key out");

    public static Finding Lacks(Place place, string what, string key, string expected) =>
        new(Rule, place.FirstLine, $"{what} lacks the key `{key}`", $"add `{key}:` with {expected}");
}
