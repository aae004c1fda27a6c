using RadioLint.Findings;
using RadioLint.Rules;
using RadioLint.Text;

namespace RadioLint.Tests.Truth;

/// <summary>The linter's verdict and the model's about one network.</summary>
/// <param name="Errors">IDs of the link errors that the linter found, in order.</param>
/// <param name="Fault">What failed on the model; null when every packet arrived.</param>
public sealed record Verdict(IReadOnlyList<string> Errors, string? Fault)
{
    public bool Agrees => (Errors.Count == 0) == (Fault is null);

    public static Verdict? Of(Draft draft) => Of(draft.Text());

    /// <summary>Null when the manifest says nothing that could be judged on the air.</summary>
    public static Verdict? Of(string text)
    {
        CheckResult result;
        try
        {
            result = Linter.Check(new SourceText("draw.radio.yaml", text));
        }
        catch (Exception fault) when (fault is not OperationCanceledException)
        {
            throw new InvalidOperationException($"the linter failed on\n{text}", fault);
        }
        if (result.Network is not { } network)
            return null;
        var errors = result.Findings.Where(finding => finding.Rule.StopsDelivery && finding.Severity is Severity.Error).Select(finding => finding.Rule.Id).Distinct().Order(StringComparer.Ordinal).ToList();
        // An error of another kind may be why a node cannot be configured; then the question is not put.
        if (errors.Count == 0 && result.Findings.Any(finding => finding.Severity is Severity.Error))
            return null;
        return new(errors, OnTheModel.FaultOf(network));
    }
}

/// <summary>Many verdicts: how often each came, and the first disagreements.</summary>
public sealed class Tally
{
    public static IReadOnlyList<string> Listed { get; } = [.. Catalogue.All.Where(rule => rule.StopsDelivery).Select(rule => rule.Id)];

    public long Networks { get; private set; }

    public long Unasked { get; private set; }

    public long Delivered { get; private set; }

    public SortedDictionary<string, long> OnlyError { get; } = new(StringComparer.Ordinal);

    public List<(ulong Seed, Draft Draft, Verdict Verdict)> Disagreements { get; } = [];

    public void Add(ulong seed, Draft draft)
    {
        if (Verdict.Of(draft) is not { } verdict)
        {
            Unasked++;
            return;
        }
        Networks++;
        if (verdict.Errors.Count == 0)
            Delivered++;
        if (verdict.Errors.Count == 1)
            OnlyError[verdict.Errors[0]] = OnlyError.GetValueOrDefault(verdict.Errors[0]) + 1;
        if (!verdict.Agrees)
            Disagreements.Add((seed, draft, verdict));
    }

    public void Add(Tally other)
    {
        Networks += other.Networks;
        Unasked += other.Unasked;
        Delivered += other.Delivered;
        foreach (var (rule, count) in other.OnlyError)
            OnlyError[rule] = OnlyError.GetValueOrDefault(rule) + count;
        Disagreements.AddRange(other.Disagreements);
    }

    /// <summary>Made smaller as long as the two still disagree in the same direction.</summary>
    public static Draft Shrink(Draft draft, Verdict verdict)
    {
        while (true)
        {
            var smaller = draft.Smaller().FirstOrDefault(one => Verdict.Of(one) is { Agrees: false } still && (still.Fault is null) == (verdict.Fault is null));
            if (smaller is null)
                return draft;
            draft = smaller;
        }
    }
}
