using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using CsCheck;
using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Planning;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Planning;

/// <summary>
/// What is written reads back, in every node and link that it is for and in no other, and every byte outside the edits stays: over all manifests of the tests, in several layouts.
/// </summary>
public sealed class ManifestWriterProperties
{
    [Fact]
    public void What_is_written_reads_back_and_all_else_stays()
    {
        var (texts, made, left) = (0, 0, 0);
        var faults = new StringBuilder();
        foreach (var (name, original, folder) in OpenedManifests.All())
        {
            foreach (var layout in OpenedManifests.Layouts(original))
            {
                var dice = new PCG(1, (ulong)(texts + 1));
                var text = OpenedManifests.Opened(layout, dice);
                byte[]? Include(string below) => File.Exists(Path.Combine(folder, below)) ? File.ReadAllBytes(Path.Combine(folder, below)) : null;
                if (Read(text, Include) is not { } network)
                    continue;
                texts++;
                var choices = Choices(network, dice).ToList();
                var written = ManifestWriter.Write(network, choices);
                made += written.Made.Length;
                left += written.Left.Length;
                var fault = Fault(network, written, choices, Include);
                if (fault is not null)
                    faults.Append(CultureInfo.InvariantCulture, $"{name}: {fault}\n--- before\n{text}\n--- after\n{written.Text}\n");
                foreach (var one in written.Left.Where(one => one.Why.Contains("layout", StringComparison.Ordinal)))
                    faults.Append(CultureInfo.InvariantCulture, $"{name}: {one.Choice.Key} {one.Why}\n{text}\n");
            }
        }
        TestContext.Current.TestOutputHelper?.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{texts} manifests, {made} values written, {left} left"));
        Assert.True(faults.Length == 0, faults.ToString()[..Math.Min(faults.Length, 20_000)]);
        Assert.True(texts > 5_000 && made > 40_000 && left * 50 < made, $"{texts} {made} {left}");
    }

    private static Network? Read(string text, Func<string, byte[]?> include)
    {
        var read = Linter.Open("x.radio.yaml", Encoding.UTF8.GetBytes(text), new() { Include = include });
        return read.Findings.Any(finding => finding.Severity is Severity.Error) ? null : read.Network;
    }

    // A value for much of what is open or not written; what it is does not matter here.
    private static IEnumerable<Choice> Choices(Network network, PCG dice)
    {
        bool Sometimes() => dice.Next(3) > 0;
        if (network.Air.ChosenChannel is null && network.Air.Channel is not null)
            yield return new(null, "air.channel", Number(2 + dice.Next(80)), "");
        if (network.Air.Rate is { IsDefault: true } or { Value.Rate: null } && Sometimes())
            yield return new(null, "air.rate", "250 kbps", "");
        if (network.Air.Retry.Delay is { Value.IsOpen: true } && Sometimes())
            yield return new(null, "air.retry.delay", "[500 us, 750 us]", "");
        var sameForAll = dice.Next(2) == 0;
        foreach (var node in network.DistinctNodes)
        {
            if (node.Power is { IsDefault: true } && Sometimes())
                yield return new(node, "power", Power(node, sameForAll ? 1 : (int)dice.Next(3)), "");
            foreach (var (signal, line) in new[] { ("ce", node.Wiring.Ce), ("csn", node.Wiring.Csn), ("irq", node.Wiring.Irq) })
            {
                if (line is null && Sometimes())
                    yield return new(node, $"pins.{signal}", sameForAll ? "D7" : $"pin {Number(dice.Next(40))}", "");
            }
            if (node.Air.Retry.Delay is { Value.IsOpen: true } && dice.Next(4) == 0)
                yield return new(node, "retry.delay", $"{Number(250 * (1 + dice.Next(16)))} us", "");
        }
        foreach (var link in network.Links)
        {
            if (link.Offset is null && Sometimes())
                yield return new(link, "offset", $"{Number(dice.Next(100))} s", "");
            if (link.Jitter is null && Sometimes())
                yield return new(link, "jitter", "10 %", "");
            if (link.Address is null && link is { From.Length: 1, To.Length: 1 } && Sometimes())
                yield return new(link, "address", "0xC2A7D19B" + (16 + dice.Next(200)).ToString("X2", CultureInfo.InvariantCulture), "");
        }
    }

    private static string Power(Node node, int at) => node.Part is { } part ? $"{part.PowerSteps[at % part.PowerSteps.Length].Step}" : "-12 dBm";

    private static string Number(uint number) => number.ToString(CultureInfo.InvariantCulture);

    private static string? Fault(Network before, FilledManifest written, List<Choice> choices, Func<string, byte[]?> include)
    {
        if (written.Made.Length + written.Left.Length != choices.Count)
            return "a choice is neither written nor left";
        var at = 0;
        var text = new StringBuilder();
        foreach (var edit in written.Edits)
        {
            if (edit.Place.Start < at)
                return "edits overlap";
            if (edit.Place.Length > 0 && edit.Place.Text.Trim('"') != "open")
                return $"`{edit.Place.Text}` was written over";
            text.Append(before.Source.Text[at..edit.Place.Start]).Append(edit.NewText);
            at = edit.Place.End;
        }
        if (text.Append(before.Source.Text[at..]).ToString() != written.Text)
            return "the text is not the edits'";
        if (Bare(before.Source.Text) != Bare(written.Text))
            return "other line ends";
        if (Read(written.Text, include) is not { } after)
            return "it does not read";
        return Differences(before, after, written).FirstOrDefault(difference => difference.Length > 0);
    }

    // Line feeds that no carriage return precedes: none where there were none.
    private static bool Bare(string text) => System.Text.RegularExpressions.Regex.IsMatch(text, "(?<!\r)\n");

    private static IEnumerable<string> Differences(Network before, Network after, FilledManifest written)
    {
        string? Of(object? target, string key) => written.Made.FirstOrDefault(choice => choice.Target == target && choice.Key == key)?.Value;
        yield return Same("channel", Of(null, "air.channel") ?? Shown(before.Air.ChosenChannel), Shown(after.Air.ChosenChannel)) ?? "";
        yield return Same("rate", Of(null, "air.rate") ?? Shown(before.Air.ChosenRate?.InManifest()), Shown(after.Air.ChosenRate?.InManifest())) ?? "";
        var byEntry = new Dictionary<object, Node>();
        for (var i = 0; i < before.Nodes.Length; i++)
        {
            var (old, now) = (before.Nodes[i], after.Nodes[i]);
            if (old.SpeaksForGroup)
                byEntry[old.Kind] = old;
            var speaker = byEntry[old.Kind];
            yield return Same($"power of {old.Name}", Of(speaker, "power") ?? Shown(old.Power?.Value), Shown(now.Power?.Value)) ?? "";
            foreach (var (signal, line, then) in new[] { ("ce", old.Wiring.Ce, now.Wiring.Ce), ("csn", old.Wiring.Csn, now.Wiring.Csn), ("irq", old.Wiring.Irq, now.Wiring.Irq), ("miso", old.Wiring.Miso, now.Wiring.Miso) })
                yield return Same($"{signal} of {old.Name}", Of(speaker, $"pins.{signal}") ?? Shown(line?.Written ?? line?.Tie.ToString()), Shown(then?.Written ?? then?.Tie.ToString())) ?? "";
            var delays = Of(speaker, "retry.delay") ?? (old.Air.Retry.Delay is { Value.IsOpen: true } ? Of(null, "air.retry.delay") : null) ?? Delays(old);
            // A node with a `retry` of its own has nothing of the network's.
            if (written.Made.All(choice => choice.Key != "air.retry.delay"))
                yield return Same($"delay of {old.Name}", delays, Delays(now)) ?? "";
            yield return Same($"limit of {old.Name}", Shown(old.Air.Retry.Limit?.Value), Shown(now.Air.Retry.Limit?.Value)) ?? "";
        }
        for (var i = 0; i < before.Links.Length; i++)
        {
            var (old, now) = (before.Links[i], after.Links[i]);
            yield return Same("offset", Of(old, "offset") ?? Shown(old.Offset?.Place.Text), Shown(now.Offset?.Place.Text.Trim('"'))) ?? "";
            yield return Same("jitter", Of(old, "jitter") ?? Shown(old.Jitter?.Place.Text), Shown(now.Jitter?.Place.Text.Trim('"'))) ?? "";
            yield return Same("address", Of(old, "address") ?? Shown(old.Address?.Value.Address), Shown(now.Address?.Value.Address)) ?? "";
        }
    }

    private static string Delays(Node node) => node.Air.Retry.Delay is { } delay ? string.Join(", ", delay.Value.Delays.Select(one => $"{one.Value}")) : "unread";

    private static string Shown(object? value) => string.Create(CultureInfo.InvariantCulture, $"{value}").Trim('"');

    private static string? Same(string what, string wanted, string found) => wanted == found ? null : $"{what} is `{found}`, not `{wanted}`";
}
