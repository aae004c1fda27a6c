using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using RadioLint.Findings;
using RadioLint.Radio;
using RadioLint.Tests.Support;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Radio;

/// <summary>
/// The whole plan of the shipped example and of a few small networks, as `plans/NAME.txt` beside them: who sends and listens where,
/// repetitions, and every transfer over SPI with its meaning. The values themselves are held to published ones by RadioCheckTests and
/// RegisterRowTests; here nothing else may change unread.
/// </summary>
public sealed class PlanTests
{
    private const string Example = "docs/examples/larkfield-apiary/larkfield-apiary.radio.yaml";
    private const string Plans = "tests/RadioLint.Core.Tests/Radio/plans/";

    public static TheoryData<string> Files() =>
    [
        Example,
        .. Directory.EnumerateFiles(Path.Combine(Fixtures.Root, Plans), "*.radio.yaml").Select(file => Plans + Path.GetFileName(file)).Order(StringComparer.Ordinal),
    ];

    [Theory, MemberData(nameof(Files))]
    public void Plans_are_those_read(string file)
    {
        var result = Linter.Check(new SourceText(file, File.ReadAllText(Path.Combine(Fixtures.Root, file))));
        Assert.Empty(result.Findings.Where(finding => finding.Severity is Severity.Error).Select(finding => $"{finding.Place} {finding.Message}"));
        var text = new StringBuilder();
        foreach (var plan in result.Network!.Plan.Nodes)
            Write(text, plan);
        var name = Path.GetFileName(file)[..^".radio.yaml".Length];
        Golden.Compare(Path.Combine(Fixtures.Root, Plans, name + ".txt"), text.ToString());
    }

    private static void Write(StringBuilder text, NodePlan plan)
    {
        text.Append(CultureInfo.InvariantCulture, $"{plan.Node.Name}\n");
        WriteHops(text, "sends", plan.Sends);
        WriteHops(text, "returns", plan.Returns);
        foreach (var pipe in plan.Pipes)
        {
            text.Append(CultureInfo.InvariantCulture, $"  pipe {pipe.Number} {pipe.Address} {(pipe.Acknowledges ? "acknowledges" : "silent")} {pipe.FixedLength?.ToString(CultureInfo.InvariantCulture) ?? "dynamic"}\n");
            WriteHops(text, "  from", pipe.Hops);
        }
        if (plan.Retry is { } retry)
            text.Append(CultureInfo.InvariantCulture, $"  retry {retry.Delay} x {retry.Limit}, {(retry.IsPlanned ? "of " + string.Join(", ", retry.Classes) : "as written")}\n");
        foreach (var frame in plan.Image?.Frames ?? ImmutableArray<Frame>.Empty)
            text.Append(CultureInfo.InvariantCulture, $"  {Convert.ToHexString(frame.Bytes.AsSpan())} {frame.Name}: {frame.Meaning}\n");
    }

    private static void WriteHops(StringBuilder text, string what, ImmutableArray<Model.Hop> hops)
    {
        foreach (var hop in hops)
        {
            text.Append(CultureInfo.InvariantCulture, $"  {what} {hop.Sender.Name} to {hop.Receiver.Name}: {hop.Link.Payload?.Name}{(hop.IsAcknowledged ? ", acknowledged" : "")}");
            text.Append(string.Concat(hop.Riders.Select(rider => $", returns {rider.Link.Payload?.Name}"))).Append('\n');
        }
    }
}
