using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Text;

namespace RadioLint.Planning;

/// <summary>What follows from names and stays so: addresses, pipes, delays of very many senders.</summary>
internal static class DerivedValues
{
    public static IEnumerable<Choice> Addresses(Network network)
    {
        var senders = new Dictionary<(Node, int?), int>();
        foreach (var plan in network.Plan.Nodes)
        {
            foreach (var pipe in plan.Pipes)
                senders[(plan.Node, pipe.Number)] = pipe.Hops.Select(hop => hop.Sender).Distinct().Count();
        }
        foreach (var hop in network.Hops.Where(hop => hop is { IsAddressDerived: true, Address: not null } && !hop.Link.RidesInAcknowledgement && hop.Receiver.OwnPipes is null)
            .OrderBy(hop => hop.Receiver.Name, NaturalOrder.Instance).ThenBy(hop => hop.Sender.Name, NaturalOrder.Instance).ThenBy(hop => hop.Link.PayloadName?.Value, StringComparer.Ordinal))
        {
            var address = hop.Address!;
            var shares = address.Width > 1 ? FormattableString.Invariant($", the first {address.Width - 1} bytes as on all pipes of `{hop.Receiver.Name}`") : "";
            yield return new(
                hop.Link, "address", $"{address}",
                FormattableString.Invariant($"{hop.Sender.Name} to {hop.Receiver.Name}: from their names, so that no further node changes it; {address.LevelChanges()} level changes in {8 * address.Width} bits{shares}"));
            if (hop.Pipe is { } pipe && hop.Link.Pipe?.Value.Number is null)
                yield return new(hop.Link, "pipe", FormattableString.Invariant($"{pipe}"), $"{hop.Sender.Name} to {hop.Receiver.Name}: {WhyPipe(senders.TryGetValue((hop.Receiver, pipe), out var there) ? there : 1)}");
        }
    }

    public static IEnumerable<Choice> Delays(RepeatTable repeats) => repeats.Senders
        .Where(sender => !sender.IsOpen && sender.Sender.Air.Retry.Delay is { Value.IsOpen: true } && sender.Delays.Length == 1 && !sender.Sender.IsExternal)
        .Select(sender => new Choice(sender.Sender, "retry.delay", $"{sender.Delays[0]}", FormattableString.Invariant($"from its name: more than {RepeatTable.MostSenders} senders share a receiver")));

    private static string WhyPipe(int senders) =>
        senders <= 1 ? "a pipe of its own" : FormattableString.Invariant($"shared by {senders} senders, more than six being there");
}
