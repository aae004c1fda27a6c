using System.Diagnostics.CodeAnalysis;
using RadioLint.Findings;
using RadioLint.Rules.Hygiene;

namespace RadioLint.Manifest;

/// <summary>Reads one scalar; yields null and the value, or the finding that says what is wrong with it.</summary>
public delegate Finding? ReadScalar<T>(LocatedScalar scalar, out T value);

/// <summary>A single text, number or word.</summary>
public sealed class ScalarShape<T>(string expected, ReadScalar<T> read, SchemaForm form) : Shape<T>
{
    public override string Expected => expected;

    public override SchemaForm Form => form;

    public Finding? Read(LocatedScalar scalar, out T value) => read(scalar, out value);

    public override bool TryRead(LocatedValue value, List<Finding> findings, [MaybeNullWhen(false)] out T result)
    {
        if (value is not LocatedScalar scalar)
        {
            findings.Add(WrongType.At(value.Place, value.Kind, expected));
            result = default;
            return false;
        }
        if (read(scalar, out result) is not { } fault)
            return true;
        findings.Add(fault);
        return false;
    }

    /// <summary>This shape or another; when neither fits, the more telling of the two findings.</summary>
    public ScalarShape<T> Or(ScalarShape<T> other) => new(
        $"{expected} or {other.Expected}",
        (LocatedScalar scalar, out T value) =>
        {
            if (Read(scalar, out value) is not { } first)
                return null;
            if (other.Read(scalar, out value) is not { } second)
                return null;
            return new[] { first, second }.FirstOrDefault(fault => fault.IsTelling)
                ?? WrongType.At(scalar.Place, $"`{scalar.Text}`", $"{expected} or {other.Expected}");
        },
        new SchemaForm.AnyOf([form, other.Form]));

    /// <summary>The same shape under a better name.</summary>
    public ScalarShape<T> Named(string name) => new(
        name,
        (LocatedScalar scalar, out T value) =>
        {
            var fault = read(scalar, out value);
            return fault is { IsTelling: false } ? WrongType.At(scalar.Place, $"`{scalar.Text}`", name) : fault;
        },
        form);

    /// <summary>The same shape with a further demand on what was read.</summary>
    public ScalarShape<T> Within(Func<LocatedScalar, T, Finding?> judge) => new(
        expected, (LocatedScalar scalar, out T value) => read(scalar, out value) ?? judge(scalar, value), form);

    /// <summary>The same shape, of which some texts are whole numbers to YAML and JSON.</summary>
    public ScalarShape<T> OrWhole() => new(expected, read, new SchemaForm.AnyOf([new SchemaForm.Whole(), form]));

    /// <summary>The same scalar read as another type.</summary>
    public ScalarShape<TOther> To<TOther>(Func<T, TOther> convert) => new(
        expected,
        (LocatedScalar scalar, out TOther value) =>
        {
            var fault = read(scalar, out var inner);
            value = fault is null ? convert(inner) : default!;
            return fault;
        },
        form);
}
