using System.Collections.Immutable;
using Microsoft.CodeAnalysis;
using RadioLint.Analyzers.Checking;
using RadioLint.Findings;
using RadioLint.Rules.HostCode;

namespace RadioLint.Analyzers.HostCode;

/// <summary>Something that can be wrong with the code of one type that speaks to radios.</summary>
internal abstract class HostRule
{
    /// <summary>Everything of this kind that is wrong.</summary>
    public abstract IEnumerable<HostFinding> Check(TypeCode code);

    /// <summary>A finding at an operation; the message ends with what to do.</summary>
    protected static HostFinding At(Descriptor rule, IOperation operation, FormattableString message) => new(rule, operation.Syntax.GetLocation(), FormattableString.Invariant(message));

    protected static HostFinding At(Descriptor rule, Location place, FormattableString message) => new(rule, place, FormattableString.Invariant(message));
}

/// <summary>One fault of C# code.</summary>
internal sealed record HostFinding(Descriptor Rule, Location Place, string Message)
{
    /// <summary>C# in the stead of the marked expression, for the code fix; several where a person must choose.</summary>
    public string? Replacement { get; init; }

    /// <summary>Several replacements of which a person must choose.</summary>
    public static string OneOf(IEnumerable<string> codes) => string.Join(FixNotes.Between.ToString(), codes);

    /// <summary>The generated type in the stead of one of the program's own.</summary>
    public string? GeneratedType { get; init; }

    /// <summary>As the compiler reports it, at the severity that the manifest gives the rule.</summary>
    public Diagnostic ToDiagnostic(Host host)
    {
        var wanted = host.SeverityOf(Rule);
        var notes = ImmutableDictionary<string, string?>.Empty;
        if (Replacement is not null)
            notes = notes.Add(FixNotes.Replacement, Replacement).Add(FixNotes.Shown, OneOf(Replacement.Split(FixNotes.Between).Select(host.Shorten)));
        if (GeneratedType is not null)
            notes = notes.Add(FixNotes.GeneratedType, GeneratedType);
        var descriptor = Descriptors.Of(Rule);
        return Diagnostic.Create(descriptor, Place, wanted is { } severity ? Descriptors.InCompiler(severity) : descriptor.DefaultSeverity, null, notes, Message);
    }
}
