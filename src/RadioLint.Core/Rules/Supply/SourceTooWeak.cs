using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Power;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Rules.Supply;

/// <summary>RL2005: what hangs on a rail can draw more than its source gives, or leaves it no margin.</summary>
public sealed class SourceTooWeak() : Rule(new(
    "RL2005", Severity.Error, "Source cannot feed the peak",
    "peak at most the source's limit, and 1.3 times the peak at most the limit (30 % margin: E01-ML01DP5 module specification 1.4, section 2); radio 11.3 mA at 0 dBm, 13.5 mA receiving " +
    "(nRF24L01+ Product Specification 1.0, Table 4)",
    "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Supply is not { } supply || PeakCurrent.OfRadio(node) is not { } radio)
                continue;
            var isPin = supply.From?.Value is SupplySource.BoardPin;
            // An amplified module on a board's pin is RL2006's.
            if (!(isPin && node.FrontEnd is not null))
            {
                if (LimitOf(node, supply) is { } limit)
                {
                    foreach (var finding in Judge(node, Loads(node, supply, radio, isPin), limit))
                        yield return finding;
                }
                else if (isPin && RadioRail.PinName(supply) == "3V3" && MayBeTooWeak(node, radio))
                {
                    yield return Waits(node, "board.rail-3v3");
                }
            }
            if (node.BoardSupply is { Limit: { } whole } board && PeakCurrent.OfController(node) is { } controller)
            {
                var loads = new List<(string, Current)> { ("controller", controller) };
                if (HangsOnBoard(supply))
                    loads.Add(("radio", radio));
                Others(board, loads);
                foreach (var finding in Judge(node, loads, (whole.Value, whole.Place, "`board-supply`")))
                    yield return finding;
            }
        }
    }

    private IEnumerable<Finding> Judge(Node node, List<(string Name, Current Draws)> loads, (Current Most, Place Place, string Name) limit)
    {
        var peak = loads.Aggregate(new Current(0), (sum, load) => sum + load.Draws);
        var withMargin = new Current(peak.Nanoamperes * 13 / 10);
        if (withMargin <= limit.Most)
            yield break;
        var sum = string.Join(" + ", loads.Select(load => $"{load.Name} {load.Draws}"));
        yield return peak > limit.Most
            ? At(
                node, limit.Place,
                $"{limit.Name} of `{node.Label}` gives {limit.Most}, {peak - limit.Most} less than the peak of {peak} ({sum})",
                $"use a source of at least {withMargin}")
            : At(
                node, limit.Place,
                $"{limit.Name} of `{node.Label}` gives {limit.Most}; the peak of {peak} ({sum}) leaves less than 30 % margin",
                $"use a source of at least {withMargin}") with
            { Severity = Severity.Warning };
    }

    internal static (Current Most, Place Place, string Name)? LimitOf(Node node, Model.Supply supply)
    {
        if (supply.Limit is { } stated)
            return (stated.Value, stated.Place, "`supply`");
        if (RadioRail.RegulatorOf(supply) is { } regulator)
            return (regulator.PlanningLimit.Value, supply.Part?.Place ?? supply.From!.Place, regulator.Name);
        if (supply.From?.Value is not SupplySource.BoardPin || RadioRail.PinName(supply) != "3V3" || node.Board?.Rail3V3 is not { } rail)
            return null;
        var place = supply.Pin?.Place ?? supply.From.Place;
        return rail.Limit is { } limit ? (limit.Value, place, "the board's 3.3 V pin")
            : rail.Part is { } part && Regulators.Find(part.Value) is { } known ? (known.PlanningLimit.Value, place, "the board's 3.3 V pin")
            : null;
    }

    // A rail that every known board of this kind could carry the radio on needs no question.
    private static bool MayBeTooWeak(Node node, Current radio)
    {
        var needed = Loads(node, node.Supply!, radio, isPin: true).Aggregate(new Current(0), (sum, load) => sum + load.Item2);
        return node.Board is { } board && (board.Rails.IsEmpty || board.Rails.Any(rail => new Current(needed.Nanoamperes * 13 / 10) > rail.Limit));
    }

    private static List<(string, Current)> Loads(Node node, Model.Supply supply, Current radio, bool isPin)
    {
        var loads = new List<(string, Current)> { ("radio", radio) };
        // On a board of 3.3 V logic the controller itself is on that rail.
        if (isPin && node.Board?.Logic?.Value.Millivolts < 4_500 && PeakCurrent.OfController(node) is { } controller)
            loads.Add(("controller", controller));
        Others(supply, loads);
        return loads;
    }

    private static void Others(Model.Supply supply, List<(string, Current)> loads)
    {
        foreach (var other in supply.AlsoFeeds)
        {
            if (other.Peak is { } peak)
                loads.Add((other.Name, peak));
        }
    }

    private static bool HangsOnBoard(Model.Supply supply) =>
        supply.From?.Value is SupplySource.BoardPin || supply.Input?.Value is { Voltage: not null } or null && supply.From?.Value is SupplySource.Adapter or SupplySource.Regulator;
}
