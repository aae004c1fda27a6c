using System.Globalization;
using System.Text;
using RadioLint.Facts;
using RadioLint.Findings;
using RadioLint.Readback;
using RadioLint.Simulation;
using RadioLint.Starting;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Truth;

/// <summary>
/// Drawn networks are written to chips of the model, their registers read over SPI and printed; the manifest that starts from there plans the same registers.
/// RADIOLINT_NETWORKS sets how many are drawn, RADIOLINT_SEED the first seed.
/// </summary>
public sealed class StartedFromChips
{
    private const int InCi = 1_500;

    [Fact]
    public void A_dump_of_chips_comes_back()
    {
        var wanted = Setting("RADIOLINT_NETWORKS", InCi);
        var draw = new DraftDraw((ulong)Setting("RADIOLINT_SEED", 1) * 900_001UL);
        var (networks, registers) = (0, 0);
        var faults = new StringBuilder();
        while (networks < wanted)
        {
            var text = draw.Next().Text();
            var result = Linter.Check(new SourceText("draw.radio.yaml", text));
            if (result.Network is not { } network || result.Findings.Any(finding => finding.Severity is Severity.Error && finding.Rule.Id.StartsWith("RL80", StringComparison.Ordinal))
                || network.Plan.Nodes.Any(plan => NodeFacts.Of(network, plan) is null))
                continue;
            networks++;
            var dumps = network.Plan.Nodes.Select(plan => (plan.Node.Name, Listing: Dump(plan))).ToList();
            var started = StartFromDump.Of(dumps, new("again", "GB", "esp32"))!;
            var again = Linter.Check(new SourceText("again.radio.yaml", started.Text)).Network;
            foreach (var (name, listing) in dumps)
            {
                var image = again?.Plan.Of(again.Nodes.Single(node => node.Name == name)).Image;
                var frame = image?.Frames.FirstOrDefault(frame => frame.Register is { } register and not 0x07
                    && !image[register]!.Value.SequenceEqual(listing[register]!.Bytes.Take(frame.Data.Length)));
                registers += image?.Frames.Length ?? 0;
                if (image is null || frame is not null)
                    faults.Append(CultureInfo.InvariantCulture, $"{name}: {frame?.Name ?? "no image"}\n{started.Text}--- of\n{text}\n");
            }
        }
        TestContext.Current.TestOutputHelper?.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{networks} networks, {registers} registers"));
        Assert.True(faults.Length == 0, faults.ToString()[..Math.Min(faults.Length, 10_000)]);
    }

    // As a program prints them that reads each register of a radio that is set up.
    private static Listing Dump(RadioLint.Radio.NodePlan plan)
    {
        var air = new Air();
        var chip = air.Add(ChipVariants.Find(plan.Node.Part!.Name)!);
        air.AdvanceBy(200 * Ticks.PerMillisecond);
        if (plan.Image!.NeedsUnlock)
        {
            chip.Transfer([.. plan.Image.Frames[0].Bytes]);
            chip.Transfer(0x50, 0x73);
        }
        foreach (var frame in plan.Image.Frames)
            chip.Transfer([.. frame.Bytes]);
        var reader = new LogReader("dump.txt");
        var number = 0;
        foreach (var register in RadioLint.Readback.RegisterMap.Registers.Where(register => register.Address is < 0x18 or > 0x1B))
        {
            var back = new byte[register.Bytes + 1];
            chip.Transfer([register.Address, .. new byte[register.Bytes]], back);
            reader.Add(new($"{register.Name}: {string.Join(' ', back[1..].Select(one => one.ToString("X2", CultureInfo.InvariantCulture)))}", ++number));
        }
        return reader.End().Nodes.Single().Last!;
    }

    private static long Setting(string name, long otherwise) =>
        long.TryParse(Environment.GetEnvironmentVariable(name), NumberStyles.None, CultureInfo.InvariantCulture, out var value) ? value : otherwise;
}
