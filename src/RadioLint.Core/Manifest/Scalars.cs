using System.Globalization;
using RadioLint.Findings;
using RadioLint.Rules.Hygiene;
using RadioLint.Text;

namespace RadioLint.Manifest;

/// <summary>The shapes of words, names, texts and dates.</summary>
public static class Scalars
{
    /// <summary>Free text.</summary>
    public static readonly ScalarShape<string> Text = new(
        "text",
        (LocatedScalar scalar, out string value) =>
        {
            value = scalar.Text;
            return null;
        },
        new SchemaForm.Scalar(null));

    /// <summary>true or false; never yes, no, on, off.</summary>
    public static readonly ScalarShape<bool> Truth = new(
        "`true` or `false`",
        (LocatedScalar scalar, out bool value) =>
        {
            value = scalar.Text == "true";
            if (AmbiguousScalar.IsTruth(scalar))
                return AmbiguousScalar.Meant(scalar, "`true` or `false`", AmbiguousScalar.IsNegative(scalar) ? "false" : "true");
            return scalar.Text is "true" or "false" ? null : WrongType.At(scalar.Place, $"`{scalar.Text}`", "`true` or `false`");
        },
        new SchemaForm.Truth());

    /// <summary>A name that the manifest gives: lower-case-with-hyphens, usable as an identifier.</summary>
    public static readonly ScalarShape<string> NewName = new(
        "a name such as `hive-1`",
        (LocatedScalar scalar, out string value) =>
        {
            value = scalar.Text;
            if (AmbiguousScalar.IsTruth(scalar))
                return AmbiguousScalar.At(scalar, "a name");
            if (!Names.IsWellFormed(value))
                return UnusableName.Form(scalar.Place, value);
            return Names.ReservedIn(value) is { } language ? UnusableName.Reserved(scalar.Place, value, language) : null;
        },
        new SchemaForm.Scalar("^[a-z][a-z0-9]*(-[a-z0-9]+)*$"));

    /// <summary>A reference to something that has a name; whether it exists is judged later.</summary>
    public static readonly ScalarShape<string> Reference = new(
        "a name",
        (LocatedScalar scalar, out string value) =>
        {
            value = scalar.Text;
            return AmbiguousScalar.IsTruth(scalar) ? AmbiguousScalar.At(scalar, "a name") : null;
        },
        new SchemaForm.Scalar(null));

    /// <summary>A day, optionally with hour and minute.</summary>
    public static readonly ScalarShape<DateTime> Date = new(
        "a date such as `2026-05-02`",
        (LocatedScalar scalar, out DateTime value) =>
            DateTime.TryParseExact(
                scalar.Text, ["yyyy-MM-dd", "yyyy-MM-dd HH:mm"], CultureInfo.InvariantCulture, DateTimeStyles.None, out value)
                ? null
                : WrongType.At(scalar.Place, $"`{scalar.Text}`", "a date such as `2026-05-02`"),
        new SchemaForm.Scalar("^[0-9]{4}-[0-9]{2}-[0-9]{2}( [0-9]{2}:[0-9]{2})?$"));

    /// <summary>One of a few words, each standing for a value.</summary>
    public static ScalarShape<T> Words<T>(string what, params (string Word, T Value)[] words)
    {
        var allowed = words.Select(word => word.Word).ToArray();
        return new(
            $"one of {string.Join(", ", allowed)}",
            (LocatedScalar scalar, out T value) =>
            {
                foreach (var (word, means) in words)
                {
                    if (!string.Equals(word, scalar.Text, StringComparison.Ordinal))
                        continue;
                    value = means;
                    return null;
                }
                value = default!;
                if (Negative(allowed) is { } none && AmbiguousScalar.IsTruth(scalar) && AmbiguousScalar.IsNegative(scalar))
                    return AmbiguousScalar.Meant(scalar, $"`{none}`", none);
                if (Negative(allowed) is { } never && scalar.Text == "false")
                    return WrongType.Meant(scalar, $"`false` is not {what}", never);
                return AmbiguousScalar.IsTruth(scalar)
                    ? AmbiguousScalar.At(scalar, $"one of {string.Join(", ", allowed)}", $"one of {string.Join(", ", allowed)}")
                    : ValueNotInList.At(scalar.Place, scalar.Text, what, allowed);
            },
            new SchemaForm.Words(allowed));
    }

    private static string? Negative(string[] words) => Array.Find(words, word => word is "none" or "never");

    /// <summary>A text that a function of ours takes apart; null from it means that it does not fit.</summary>
    public static ScalarShape<T> Parsed<T>(string expected, string? pattern, Func<string, T?> parse)
        where T : class => new(
        expected,
        (LocatedScalar scalar, out T value) =>
        {
            value = parse(scalar.Text)!;
            return value is null ? WrongType.At(scalar.Place, $"`{scalar.Text}`", expected) : null;
        },
        new SchemaForm.Scalar(pattern));
}
