using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Spectrum;

/// <summary>RL3004: the manifest does not say whose band rules hold.</summary>
public sealed class NoRegionDeclared() : Rule(new(
    "RL3004", Severity.Warning, "No region declared",
    "until then 2400.0 MHz to 2483.5 MHz and 10 dBm EIRP (own choice: what most regions allow a fixed channel)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        if (network.WritesRegion || network.Name is not { } name)
            yield break;
        var (low, high) = (network.Band.Band.Low.InMegahertz(), network.Band.Band.High.InMegahertz());
        yield return At(
            name.Place,
            $"no region is declared; {low} to {high} and {network.Band.Limit} EIRP are assumed, which your country may not allow",
            $"add `region:` with the ISO 3166 code of the country where the network works; the rules of the place of use govern");
    }
}
