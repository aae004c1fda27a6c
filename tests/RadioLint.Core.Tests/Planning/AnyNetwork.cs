using System.Globalization;
using RadioLint.Planning;
using RadioLint.Tests.Properties;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Planning;

/// <summary>
/// What holds for any network that can be read, however wrong: a plan or a conflict, whatever the order of nodes, and nothing cheaper than the bound. RADIOLINT_NETWORKS sets how many are drawn.
/// </summary>
public sealed class AnyNetwork(ITestOutputHelper output)
{
    [Fact]
    public void Has_a_plan_or_a_conflict()
    {
        var (many, read, chosen, conflicts) = (int.Parse(Environment.GetEnvironmentVariable("RADIOLINT_NETWORKS") ?? "600", CultureInfo.InvariantCulture), 0, 0, 0);
        for (ulong seed = 1; seed <= (ulong)many; seed++)
        {
            var draw = new NetworkDraw(seed);
            var root = draw.Next();
            if (Linter.Check(new SourceText("drawn.radio.yaml", Trees.Write(root))).Network is not { } network)
                continue;
            read++;
            FillPlan plan;
            try
            {
                plan = Filling.Plan(network, null);
            }
            catch (Exception crash)
            {
                throw new InvalidOperationException($"seed {seed}:\n{Trees.Write(root)}", crash);
            }
            Assert.True(plan.Bound <= plan.Cost, $"seed {seed}");
            Assert.True(plan.Conflict.IsEmpty || plan.Choices.IsEmpty, $"seed {seed}");
            Assert.All(plan.Fixed, one => Assert.True(one.IfFree < one.Cost, $"seed {seed}"));
            (chosen, conflicts) = (chosen + (plan.Choices.IsEmpty ? 0 : 1), conflicts + (plan.Conflict.IsEmpty ? 0 : 1));
        }
        Assert.True(read > many / 2 && chosen > many / 4 && conflicts > 0, $"{read} read, {chosen} with choices, {conflicts} in conflict");
    }

    // 1,200 nodes round 200 hubs, each written out; 20,000 by one line, more than the delays of one receiver are searched for.
    [Theory, InlineData(true), InlineData(false)]
    public void Large_networks_are_planned_too(bool isWrittenOut)
    {
        var (nodes, links) = isWrittenOut
            ? (string.Concat(Enumerable.Range(0, 1_200).Select(n => Node($"node-{n}", ""))),
                string.Concat(Enumerable.Range(0, 1_200).Where(n => n % 6 > 0).Select(n => Link($"node-{n}", $"node-{n - (n % 6)}"))))
            : (Node("hub", "") + Node("far", "each: 1..20000, "), Link("far", "hub"));
        var network = Linter.Check(new SourceText("large.radio.yaml", $"""
            radiolint: 1
            network: orchard
            region: GB
            setting: open
            air: { "{ rate: open }" }
            nodes:
            {nodes}links:
            {links}payloads: { "{ reading: { sender: uint16, sequence: uint8 } }" }

            """)).Network!;
        var clock = System.Diagnostics.Stopwatch.StartNew();
        var plan = Filling.Plan(network, null);
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{network.Nodes.Length} nodes: {plan.Choices.Length} choices in {clock.ElapsedMilliseconds} ms"));
        Assert.Empty(plan.Conflict);
        Assert.Contains(plan.Choices, choice => choice.Key == "air.rate");
        Assert.Equal(isWrittenOut ? 1_200 : 2, plan.Choices.Count(choice => choice.Key == "power"));
        Assert.Equal(isWrittenOut ? 1_000 : 0, plan.Choices.Count(choice => choice.Key == "retry.delay"));

        static string Node(string name, string each) =>
            FormattableString.Invariant($"  {name}: {{ {each}board: atmega328p, pins: {{ ce: D9, csn: D10 }}, radio: {{ antenna: printed }}, height: 2 m }}\n");

        static string Link(string from, string to) => FormattableString.Invariant($"  - {{ from: {from}, to: {to}, payload: reading, every: 10 min, jitter: 10 %, distance: 12 m }}\n");
    }
}
