using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Power;

/// <summary>What a load behind switching converters costs the battery.</summary>
public static class Conversion
{
    /// <summary>Efficiency from the best to a light load, value from memory.</summary>
    private const decimal Best = 0.95m, Light = 0.7m;

    // No converter of a small node steps up further.
    private const decimal Most = 1_000;

    /// <summary>Battery current for a load: Vout x I / (efficiency x Vin), the balance of powers.</summary>
    public static Current Input(Current load, Voltage output, Voltage input, decimal efficiency) =>
        new((long)decimal.Round(load.Nanoamperes * output.Millivolts / (efficiency * input.Millivolts)));

    /// <summary>By how much the converters of a path multiply a load's current, at best and at worst; 1 without converters, and while a voltage is not known.</summary>
    public static (decimal Least, decimal Most) Factor(Node node, BatteryPath path)
    {
        var (least, most) = (1m, 1m);
        foreach (var stage in path.Stages)
        {
            if (stage.From?.Value is not SupplySource.Converter || RadioRail.Input(node, stage) is not { Millivolts: > 0 } input || RadioRail.Output(node, stage) is not { } output)
                continue;
            var ratio = Math.Min(Most, (decimal)output.Nominal.Millivolts / input.Millivolts);
            least = Math.Min(Most, least * ratio / Best);
            most = Math.Min(Most, most * ratio / Light);
        }
        return (least, most);
    }
}
