using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;
using RadioLint.Units;

namespace RadioLint.Rules.Supply;

/// <summary>RL2008: a regulator gets less than its output plus its dropout, so it does not regulate.</summary>
public sealed class RegulatorInDropout() : Rule(new(
    "RL2008", Severity.Error, "Regulator in dropout",
    "input less dropout at least the output; AMS1117 1.1 V typical, 1.3 V maximum at 0.8 A (AMS1117 data sheet, electrical characteristics)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            foreach (var stage in Stages(node))
            {
                if (Judge(node, stage) is { } finding)
                    yield return finding;
                else if (stage.From?.Value is SupplySource.Regulator && stage.Dropout is null && RadioRail.RegulatorOf(stage)?.Dropout is null)
                    yield return Waits(node, "supply.dropout");
            }
        }
    }

    /// <summary>Regulating stages of both chains, the radio's first.</summary>
    internal static IEnumerable<Model.Supply> Stages(Node node)
    {
        foreach (var start in new[] { node.Supply, node.BoardSupply })
        {
            for (var stage = start; stage is not null; stage = stage.Input?.Value.Supply)
            {
                if (stage.From?.Value is SupplySource.Adapter or SupplySource.Regulator)
                    yield return stage;
            }
        }
    }

    private Finding? Judge(Node node, Model.Supply stage)
    {
        if (RadioRail.Input(node, stage) is not { } input || RadioRail.Output(node, stage) is not { } output)
            return null;
        var regulator = RadioRail.RegulatorOf(stage);
        if ((stage.Dropout?.Value ?? regulator?.Dropout?.Value) is not { } typical)
            return null;
        var most = stage.Dropout?.Value ?? regulator?.DropoutMost?.Value ?? typical;
        var isCertain = input - typical < output.Nominal;
        if (!isCertain && input - most >= output.Nominal)
            return null;
        var dropout = isCertain ? typical : most;
        var what = stage.Part?.Value ?? regulator?.Name ?? "the regulator";
        var needed = output.Nominal + most;
        return At(
            node, stage.Input!.Place,
            $"{what} of `{node.Label}` gets {input} and needs {output.Nominal + dropout} {(isCertain ? "typically" : "in the worst case")} ({output.Nominal} out and {dropout} dropout), {output.Nominal + dropout - input} more",
            $"feed it at least {needed}, or use a type with a dropout below {LeastHeadroom(input, output.Nominal)}") with
        {
            Severity = isCertain ? Severity.Error : Severity.Warning,
            Subject = (node, stage),
        };
    }

    private static Voltage LeastHeadroom(Voltage input, Voltage output) => input > output ? input - output : new Voltage(0);
}
