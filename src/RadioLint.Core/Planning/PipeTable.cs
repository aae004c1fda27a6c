using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Text;

namespace RadioLint.Planning;

/// <summary>Senders that arrive on one pipe of a receiver.</summary>
/// <param name="Pipe">The one that they have, by the names or by a link.</param>
/// <param name="Chosen">Links to write the pipe into; none where the names give it.</param>
internal sealed record PipeUse(Node Receiver, int Pipe, bool ReceiverSends, ImmutableArray<Hop> Hops, ImmutableArray<Link> Chosen)
{
    public int Senders => Hops.Select(hop => hop.Sender).Distinct().Count();
}

/// <summary>Pipes of every receiver: as the names give them, and where six do not suffice, links of equal payload that name their sender on one pipe.</summary>
internal sealed class PipeTable
{
    private PipeTable(ImmutableArray<PipeUse> uses) => Uses = uses;

    /// <summary>By receiver's name, then by pipe.</summary>
    public ImmutableArray<PipeUse> Uses { get; }

    /// <summary>Receivers for which no pipes suffice, each with what needs one.</summary>
    public List<ImmutableArray<Demand>> Conflicts { get; } = [];

    public int[] AsPlanned => [.. Uses.Select(use => use.Pipe)];

    public static PipeTable Of(Network network)
    {
        var uses = ImmutableArray.CreateBuilder<PipeUse>();
        var conflicts = new List<ImmutableArray<Demand>>();
        foreach (var plan in network.Plan.Nodes.Where(plan => plan.Node.OwnPipes is null && !plan.Receives.IsEmpty).OrderBy(plan => plan.Node.Name, NaturalOrder.Instance))
        {
            var sends = plan.SendsAcknowledged;
            if (plan.Receives.All(hop => hop.Pipe is not null || hop.Address is null))
            {
                uses.AddRange(plan.Pipes.Where(pipe => !pipe.Hops.IsEmpty).Select(pipe => new PipeUse(plan.Node, pipe.Number, sends, pipe.Hops, ImmutableArray<Link>.Empty)));
                continue;
            }
            var sharing = SharedPipe.Deal(plan, sends);
            uses.AddRange(sharing.Uses);
            if (!sharing.Conflict.IsEmpty)
                conflicts.Add(sharing.Conflict);
        }
        var table = new PipeTable(uses.ToImmutable());
        table.Conflicts.AddRange(conflicts);
        return table;
    }

    /// <summary>What pipes cost: two uses of one receiver on one pipe share it.</summary>
    public long Cost(int[] pipes)
    {
        var sum = 0L;
        var senders = new Dictionary<(Node, int), long>();
        for (var i = 0; i < pipes.Length; i++)
        {
            sum += PlanCost.Pipe(pipes[i], Uses[i].ReceiverSends);
            senders.TryGetValue((Uses[i].Receiver, pipes[i]), out var there);
            senders[(Uses[i].Receiver, pipes[i])] = there + Uses[i].Senders;
        }
        return sum + senders.Values.Sum(n => n * (n - 1) / 2 * PlanCost.SharedPipe);
    }
}
