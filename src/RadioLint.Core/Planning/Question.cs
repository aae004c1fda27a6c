using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Planning;

/// <summary>What is to be chosen for a network, and what each choice would cost.</summary>
internal sealed class Question
{
    private readonly Dictionary<DataRate, Situation> situations = [];
    private Situation? asWritten;

    public Question(Network network, ChannelCosts? measured, Freedom freedom)
    {
        (Network, Measured, Freedom) = (network, measured, freedom);
        Variables = PowerVariable.Of(network, freedom);
        Pipes = PipeTable.Of(network);
        Rates = RatesOf();
    }

    // The same question with one written power let go.
    private Question(Question like, Place power)
    {
        (Network, Measured, Freedom) = (like.Network, like.Measured, new(power));
        (Variables, Pipes, Rates) = (PowerVariable.Of(Network, Freedom), like.Pipes, like.Rates);
        asWritten = like.asWritten is { } same ? new(this, same) : null;
        foreach (var pair in like.situations)
            situations.Add(pair.Key, new(this, pair.Value));
    }

    public Network Network { get; }

    public ChannelCosts? Measured { get; }

    public Freedom Freedom { get; }

    /// <summary>Power steps, by the name of the first node that each is for.</summary>
    public ImmutableArray<PowerVariable> Variables { get; }

    public PipeTable Pipes { get; }

    /// <summary>That may be chosen, slowest first; nothing but null where no rate is open.</summary>
    public ImmutableArray<DataRate?> Rates { get; }

    /// <summary>The same where one more line of power may be chosen; what does not hang on that is not worked out again.</summary>
    public Question LettingPowerGo(Place power) => new(this, power);

    public Situation At(DataRate? rate)
    {
        if (rate is not { } known)
            return asWritten ??= new(this, (DataRate?)null);
        if (!situations.TryGetValue(known, out var situation))
            situations.Add(known, situation = new(this, known));
        return situation;
    }

    // What every node whose rate is open has; and what a written end of a link has, where there is one.
    private ImmutableArray<DataRate?> RatesOf()
    {
        var open = new HashSet<Node>(Network.Nodes.Where(node => Freedom.Rate(node) && node.Part is not null));
        if (open.Count == 0)
            return ImmutableArray.CreateRange(new DataRate?[] { null });
        // Somebody else's node that takes the network's rate must have it as well.
        var takers = Network.Nodes.Where(node => node is { Part: not null, Air.Rate.Value.Rate: null }).Concat(open).ToList();
        var rates = new[] { DataRate.Kbps250, DataRate.Mbps1, DataRate.Mbps2 }.Where(rate => takers.TrueForAll(node => node.Part!.Rate(rate) is not null)).ToList();
        var tied = Network.Hops.Where(hop => open.Contains(hop.Sender) != open.Contains(hop.Receiver))
            .Select(hop => (open.Contains(hop.Sender) ? hop.Receiver : hop.Sender).Air.ChosenRate).OfType<DataRate>().Distinct().ToList();
        var common = rates.FindAll(rate => tied.TrueForAll(one => one == rate));
        // Written times may be too short for the slower rates; where they are so for all, the rules on them speak.
        var patient = common.FindAll(rate => Patience.Suffices(At(rate).Air));
        return ImmutableArray.CreateRange((patient.Count > 0 ? patient : common).Cast<DataRate?>());
    }
}
