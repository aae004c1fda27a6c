using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1020: what is said of the module's header does not tell its pin order, or does not fit what it plugs into.</summary>
public sealed class ModuleHeaderUnclear() : Rule(new(
    "RL1020", Severity.Warning, "Radio module header not identified", "orders of pins by kind of module (common practice, no source)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            // Who states no header may mean the air alone: nothing is known to be wrong then.
            if (node.Radio.Header is not { } header)
                continue;
            var adapter = node.Supply?.From?.Value is SupplySource.Adapter ? ModuleKinds.Find("adapter") : null;
            var module = ModuleKinds.Of(header.Value);
            if (adapter?.Header is { } taken && taken != module.Name)
            {
                yield return At(
                    node, header.Place, $"the adapter that feeds the radio of `{node.Label}` takes a module with {taken} header, and this one is {module.Name}",
                    $"check the module: state the header that it has, or feed it from a regulator");
            }
            else if (header.Value is ModuleHeader.Castellated && node.Radio.Batch is null)
            {
                yield return At(
                    node, header.Place, $"castellated modules, as in `{node.Label}`, have no customary order of pins: it differs from maker to maker",
                    $"read the print on the module, check VCC and GND before power is applied, and state `batch`") with
                { Severity = Severity.Info };
            }
        }
    }
}
