using System.Globalization;
using RadioLint.Planning;
using RadioLint.Tests.Properties;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Planning;

/// <summary>
/// What holds for any network that can be read, however wrong: a plan or a conflict, whatever the order of nodes, and nothing cheaper than the bound. RADIOLINT_NETWORKS sets how many are drawn.
/// </summary>
public sealed class AnyNetwork
{
    [Fact]
    public void Has_a_plan_or_a_conflict()
    {
        var (many, read, chosen, conflicts) = (int.Parse(Environment.GetEnvironmentVariable("RADIOLINT_NETWORKS") ?? "300", CultureInfo.InvariantCulture), 0, 0, 0);
        for (ulong seed = 1; seed <= (ulong)many; seed++)
        {
            var draw = new NetworkDraw(seed);
            var root = draw.Next();
            if (Linter.Check(new SourceText("drawn.radio.yaml", Trees.Write(root))).Network is not { } network)
                continue;
            read++;
            var plan = Filling.Plan(network, null);
            Assert.True(plan.Bound <= plan.Cost, $"seed {seed}");
            Assert.True(plan.Conflict.IsEmpty || plan.Choices.IsEmpty, $"seed {seed}");
            Assert.All(plan.Fixed, one => Assert.True(one.IfFree < one.Cost, $"seed {seed}"));
            (chosen, conflicts) = (chosen + (plan.Choices.IsEmpty ? 0 : 1), conflicts + (plan.Conflict.IsEmpty ? 0 : 1));
        }
        Assert.True(read > many / 2 && chosen > many / 4 && conflicts > 0, $"{read} read, {chosen} with choices, {conflicts} in conflict");
    }
}
