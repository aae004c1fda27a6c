using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Text;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8009: a board or a severity stands in an included file and in another file too, and one of the two counts for nothing.</summary>
public static class IncludeOverridden
{
    public static readonly Descriptor Rule = new(
        "RL8009", Severity.Info, "Include silently overridden", "own rule: the manifest's own entry counts, then that of the file that is included first", "0.1");

    /// <param name="counts">The entry that counts.</param>
    /// <param name="idle">The one that counts for nothing.</param>
    public static Finding At(Place counts, string what, Place idle) =>
        new(Rule, counts, $"{what} stands in `{idle.Source.Name.Substring(idle.Source.Name.LastIndexOf('/') + 1)}` too, and counts for nothing there", "remove one of the two, or give them different names")
        {
            Related = ImmutableArray.Create(new RelatedPlace(idle, "this one counts for nothing")),
        };
}
