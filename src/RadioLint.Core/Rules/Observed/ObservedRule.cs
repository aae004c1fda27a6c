using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Readback;
using RadioLint.Text;

namespace RadioLint.Rules.Observed;

/// <summary>One thing that a listing of registers can show. A rule looks at one radio, its plan, and nothing else.</summary>
public abstract class ObservedRule(Descriptor descriptor)
{
    public Descriptor Descriptor { get; } = descriptor;

    /// <summary>Everything of this kind that is wrong.</summary>
    public abstract IEnumerable<Finding> Check(ObservedRadio radio);

    /// <summary>A finding in the log.</summary>
    protected Finding At(ObservedRadio radio, Place place, FormattableString message, FormattableString help) =>
        new(Descriptor, place, FormattableString.Invariant(message), FormattableString.Invariant(help)) { Subject = radio.Node, NodeNames = Names(radio) };

    /// <summary>The place of the manifest that a register comes from.</summary>
    protected static ImmutableArray<RelatedPlace> Planned(ObservedRadio radio, byte register, int bits = 0xFF)
    {
        var (place, key) = PlannedPlaces.Of(radio.Plan, register, bits);
        return ImmutableArray.Create(new RelatedPlace(place, $"{key} of `{radio.Node.Name}` is planned here"));
    }

    private static ImmutableArray<string> Names(ObservedRadio radio) =>
        radio.Node.Name == radio.Node.Entry ? ImmutableArray.Create(radio.Node.Name) : ImmutableArray.Create(radio.Node.Name, radio.Node.Entry);
}
