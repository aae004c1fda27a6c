using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Units;

namespace RadioLint.Rules.Range;

/// <summary>RL7201: by the models of the path, too little is left above the receiver's sensitivity.</summary>
public sealed class LinkMarginSmall() : Rule(new(
    "RL7201", Severity.Info, "Link margin small",
    "20 dB indoors, behind obstacles or without a visit, 10 dB else (common practice); free space ITU-R P.525, indoors P.1238, ground as two rays, walls 3GPP TR 38.901 and P.2040-1, leaves by Weissberger",
    "0.1"))
{
    private static readonly Setting[] Settings = [Setting.Open, Setting.House, Setting.Office, Setting.Hall];

    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var judged in JudgedHop.Of(network))
        {
            if (!judged.HasPath)
                continue;
            var missing = judged.Missing().ToList();
            if (missing.Count == 0 && (judged.Hop.Link.Setting ?? network.Setting) is { Value: Setting.Open })
                missing.AddRange(judged.MissingHeights());
            if (missing.Count > 0)
            {
                foreach (var (node, key) in missing)
                    yield return Waits(node, key);
                continue;
            }
            var link = judged.Hop.Link;
            // A setting that nobody states matters only where the verdict hangs on it.
            var verdicts = ((link.Setting ?? network.Setting) is { } stated ? [stated.Value] : Settings).Select(setting => Judge(network, judged, setting)).ToList();
            if (verdicts.Select(one => one?.Severity).Distinct().Skip(1).Any())
                yield return Waits(judged.Hop.Sender, "setting");
            else if (verdicts[0] is { } finding)
                yield return finding;
        }
    }

    private Finding? Judge(Network network, JudgedHop judged, Setting setting)
    {
        var (hop, link) = (judged.Hop, judged.Hop.Link);
        var far = link.Distance!.Value.High;
        var loss = PathEstimate.Most(setting, far, hop.Sender.Height?.Value, hop.Receiver.Height?.Value, link.Through);
        var wanted = judged.Wanted(setting);
        var (from, to, worst) = judged.Directions(loss).OrderBy(one => one.Budget.Margin).FirstOrDefault();
        if (worst is null || worst.Margin >= wanted)
            return null;
        var what = from == hop.Sender ? "packets" : "acknowledgements";
        var sums = FormattableString.Invariant($"{worst.Radiated} EIRP, {worst.Loss} lost over {far}, {worst.Received} at `{to.Label}`");
        return At(
            hop, link.Distance.Place,
            worst.Margin.Centi >= 0
                ? (FormattableString)$"{what} from `{from.Label}` arrive {worst.Margin} above the sensitivity of {worst.Sensitivity}, {wanted - worst.Margin} less than the {wanted} that such a link should have ({sums})"
                : $"{what} from `{from.Label}` arrive {new Gain(-worst.Margin.Centi)} below the sensitivity of {worst.Sensitivity}, where already {Lost(hop)} are lost, so the link will not work by this estimate ({sums})",
            Remedy(network, from, to, judged.Rate, Reach(setting, far, wanted - worst.Margin))) with
        { Severity = worst.Margin.Centi < 0 ? Severity.Warning : Severity.Info };
    }

    // As far as the models without obstacles and ground give back what is missing: rather too short than too long.
    private static Length Reach(Setting setting, Length far, Gain missing)
    {
        var open = PathLoss.FreeSpaceReach(PathLoss.MidBand, PathLoss.FreeSpace(PathLoss.MidBand, far) - missing);
        if (setting is Setting.Open)
            return Roughly(open);
        var slope = PathLoss.PerDecade(setting);
        var whole = PathLoss.IndoorReach(PathLoss.MidBand, PathLoss.Indoors(PathLoss.MidBand, far, slope) - missing, slope);
        return Roughly(whole < open ? whole : open);
    }

    // Cut to metres, below ten of them to tenths, below one to centimetres: it is an estimate.
    private static Length Roughly(Length reach)
    {
        var step = reach.Millimetres >= 10_000 ? 1_000 : reach.Millimetres >= 1_000 ? 100 : 10;
        return new(reach.Millimetres / step * step);
    }

    // 0.1 % bit errors over everything behind the preamble.
    private static Share Lost(Hop hop)
    {
        var bytes = (hop.Sender.Air.AddressWidth?.Value ?? Address.Widest) + (hop.Link.Payload?.Size ?? 0) + (hop.Sender.Air.Crc?.Value ?? 2);
        var lost = LinkBudget.PacketLoss(new(1_000), (8 * bytes) + Radio.OnAir.ControlBits);
        return new((lost.Millionths + 500) / 1_000 * 1_000);
    }

    private static FormattableString Remedy(Network network, Node from, Node to, DataRate rate, Length reach)
    {
        var slower = from.Part!.Rates.FirstOrDefault(each => each.Rate < rate && to.Part!.Rate(each.Rate) is not null);
        if (slower is not null && LinkBudget.SensitivityOf(to, slower.Rate) is { } better && LinkBudget.SensitivityOf(to, rate) is { } now)
            return $"use `rate: {slower.Rate.InManifest()}`, which is heard at {now - better} less, or shorten the path to {reach}";
        var stronger = from.Part.PowerSteps.Where(one => one.Step > from.Power!.Value && Eirp.Of(from, one.Step) is { } more && more.Level <= network.Band.Limit).ToList();
        return stronger.Count > 0 && from.Power is not null
            ? $"use `power: {stronger[0].Step}` at `{from.Label}`, which stays inside the region's limit, or shorten the path to {reach}"
            : (FormattableString)$"shorten the path to {reach}, raise the antennas into sight of each other, or add a relay";
    }
}
