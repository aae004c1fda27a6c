using RadioLint.Spectrum;
using RadioLint.Tests.Support;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests.Spectrum;

/// <summary>Load and loss of pure random access (Abramson, AFIPS 1970), beside the rows that WorkedExampleTests reads.</summary>
public sealed class ContentionFacts
{
    // 1 - e^(-2G) at the limits of RL7001: 4, 10 and 18 %, and 63 % where throughput is highest.
    [Theory, InlineData(20_000, 39_211), InlineData(50_000, 95_163), InlineData(100_000, 181_269), InlineData(500_000, 632_121), InlineData(0, 0)]
    public void Loss_at_the_first_try(long load, long expected) => Assert.Equal(expected, Contention.FirstTryLoss(new(load)).Millionths);

    // 1 + p + p^2 + ...: a tenth lost at each try makes 1.1111 tries when there is no end to them.
    [Theory, InlineData(100_000, 0, 1.0), InlineData(100_000, 1, 1.1), InlineData(100_000, 3, 1.111), InlineData(1_000_000, 15, 16.0), InlineData(0, 15, 1.0)]
    public void Tries_until_it_arrives(long loss, int repetitions, double expected) => Assert.Equal(expected, Contention.MeanAttempts(new(loss), repetitions), 9);

    // What stands still: the settled load is that of the first tries with its own repetitions; more than it fits no channel.
    [Theory, InlineData(0.01, 15), InlineData(0.04, 3), InlineData(0.1, 1), InlineData(0.3, 15)]
    public void Repetitions_bring_load_that_brings_repetitions(double first, int repetitions)
    {
        var loads = new double[16];
        loads[repetitions] = first;
        var settled = Contention.Settled(loads);
        var again = first * Contention.MeanAttempts(Contention.FirstTryLoss(settled), repetitions) * 1e6;
        Assert.InRange(settled.Millionths, again - 2, again + 2);
        Assert.True(settled.Millionths > first * 1e6);
        Assert.True(settled.Millionths <= first * 16e6);
    }

    [Fact]
    public void Without_repetitions_the_load_is_that_of_the_first_tries()
    {
        Assert.Equal(20_000, Contention.Settled([0.02]).Millionths);
        Assert.Equal(0, Contention.Settled(new double[16]).Millionths);
        Assert.Equal(3_000_000, Contention.Settled([3.0]).Millionths);
    }

    // MAC-02: 329 + 130 + 73 us of a full packet at 1 Mbps with an empty acknowledgement.
    [Fact]
    public void A_try_keeps_the_channel_for_packet_turn_and_acknowledgement()
    {
        var row = Published.Example("worked-examples.csv", "MAC-02");
        var network = SmallNetwork.Read(SmallNetwork.With(air: "rate: 1 Mbps", payload: "data: bytes 32"));
        Assert.Equal(row.Number("result"), Traffic.Busy(network.Plan.Of(network.Nodes[1]), network.Hops[0])!.Value.Nanoseconds / 1_000m);
        var silent = SmallNetwork.Read(SmallNetwork.With(air: "rate: 1 Mbps", payload: "data: bytes 32", link: "acknowledge: false"));
        Assert.Equal(329_000, Traffic.Busy(silent.Plan.Of(silent.Nodes[1]), silent.Hops[0])!.Value.Nanoseconds);
    }
}
