using RadioLint.Findings;
using RadioLint.Text;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8106: a baseline knows a finding that is no more; if it comes back, nobody is told.</summary>
public static class BaselineEntryGone
{
    public static readonly Descriptor Rule = new("RL8106", Severity.Info, "Baseline entry that no longer occurs", "own rule: a baseline lists what is found", "0.1");

    public static Finding At(Place entry, string rule, string file) =>
        new(Rule, entry, $"{rule} in `{file}` is no longer found", "write the baseline anew with `--adopt`, so that the finding is told if it comes back");
}
