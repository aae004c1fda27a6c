using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Rules.Addressing;

/// <summary>RL4007: address and CRC are so short that noise is taken for packets.</summary>
public sealed class NoiseTakenForPackets() : Rule(new(
    "RL4007", Severity.Warning, "Noise taken for packets",
    "30 days from one false packet to the next, 3 years for an info: own thresholds; the time is 2^(8 x (address + CRC bytes)) / (rate x open pipes), derived for noise of even bits, no credit for the preamble", "0.1"))
{
    private static readonly Duration Hour = new(3_600_000_000_000);
    private static readonly Duration Day = new(86_400_000_000_000);
    private static readonly Duration Soon = Day * 30;
    private static readonly Duration Late = new(3 * 31_557_600_000_000_000);

    public override IEnumerable<Finding> Check(Network network)
    {
        // One line is the cause for all nodes that have their width from it; the one with the most noise is told of.
        foreach (var alike in network.DistinctNodes.Select(node => Of(network, node)).OfType<Noise>().GroupBy(noise => noise.Width.Place))
        {
            var worst = alike.OrderBy(noise => noise.Mean).ThenBy(noise => noise.Node.Name, NaturalOrder.Instance).First();
            if (worst.Mean < Late.Nanoseconds)
                yield return Judge(network, worst);
        }
    }

    private static Noise? Of(Network network, Node node)
    {
        var plan = network.Plan.Of(node);
        // A width that the chip does not offer is RL4001. A sender hears nothing but while it waits for an acknowledgement.
        return plan is { Listens: true, CheckBytes: { } crc }
            && node.Air is { ChosenRate: { } rate, AddressWidth: { Value: >= Address.Narrowest and <= Address.Widest } width }
                ? new(node, width, crc, plan.Pipes.Length, rate, FalsePackets.MeanTime(rate, width.Value, crc, plan.Pipes.Length))
                : null;
    }

    private Finding Judge(Network network, Noise noise) => At(
        noise.Node, noise.Width.Place,
        $"noise makes a packet at `{noise.Node.Label}` every {Show(noise.Mean)}: addresses of {noise.Width.Value} bytes and {(noise.Crc == 0 ? "no CRC" : FormattableString.Invariant($"{noise.Crc} byte{(noise.Crc == 1 ? "" : "s")} of CRC"))} on {noise.Pipes} pipe{(noise.Pipes == 1 ? "" : "s")} at {noise.Rate.InManifest()}",
        $"use addresses of {Address.Widest} bytes and a CRC of 2, and let the payload begin with a constant that the receiver checks",
        CanWiden(network, noise.Width) ? [Offer($"Use {Address.Widest} bytes", noise.Width.Place, FormattableString.Invariant($"{Address.Widest}"))] : []) with
    {
        Severity = noise.Mean < Soon.Nanoseconds ? Severity.Warning : Severity.Info,
    };

    // Written addresses would be too short, and ends that state a width of their own would differ.
    private static bool CanWiden(Network network, Stated<int> width) =>
        width.Value < Address.Widest && network.Links.All(link => link.Address is null)
        && network.DistinctNodes.All(node => node.OwnPipes is null && node.Air.AddressWidth?.Place == width.Place);

    // Two units of the smaller kind are better said in it.
    private static string Show(decimal nanoseconds)
    {
        var (unit, name) = nanoseconds < 2 * Hour.Nanoseconds ? (60_000_000_000, "min") : nanoseconds < 2 * Day.Nanoseconds ? (Hour.Nanoseconds, "h") : (Day.Nanoseconds, "days");
        return FormattableString.Invariant($"{Math.Round(nanoseconds / unit)} {name}");
    }

    private sealed record Noise(Node Node, Stated<int> Width, int Crc, int Pipes, DataRate Rate, decimal Mean);
}
