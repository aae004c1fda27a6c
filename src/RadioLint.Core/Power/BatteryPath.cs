using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Power;

/// <summary>The stages between a load and the node's cells, the load's first.</summary>
public sealed record BatteryPath(ImmutableArray<Supply> Stages)
{
    /// <summary>True when the load hangs on the cells with nothing between.</summary>
    public bool IsDirect => Stages.All(stage => stage.From?.Value is SupplySource.Battery or SupplySource.BoardPin);

    /// <summary>True when a switching converter stands between: the cells' voltage then says nothing about the load's.</summary>
    public bool HasConverter => Stages.Any(stage => stage.From?.Value is SupplySource.Converter);

    /// <summary>What linear regulators on the way lose, as far as their dropout is known.</summary>
    public Voltage Dropout => Stages.Aggregate(new Voltage(0), (sum, stage) => sum + (DropoutOf(stage) ?? new Voltage(0)));

    /// <summary>How the radio hangs on the cells; null when something else feeds it.</summary>
    public static BatteryPath? OfRadio(Node node) => Follow(node, node.Supply);

    /// <summary>How the controller does; null too while nobody says what feeds it.</summary>
    public static BatteryPath? OfController(Node node) => Follow(node, node.BoardSupply);

    private static BatteryPath? Follow(Node node, Supply? supply)
    {
        var stages = ImmutableArray.CreateBuilder<Supply>();
        var isBoards = ReferenceEquals(supply, node.BoardSupply);
        for (var stage = supply; stage is not null;)
        {
            stages.Add(stage);
            var toBoard = false;
            switch (stage.From?.Value)
            {
                case SupplySource.Battery:
                    return new(stages.ToImmutable());
                case SupplySource.BoardPin:
                    toBoard = true;
                    break;
                case SupplySource.Adapter or SupplySource.Regulator or SupplySource.Converter:
                    if (stage.Input?.Value.Source is SupplySource.Battery)
                        return new(stages.ToImmutable());
                    // A bare voltage is that of the board's own supply.
                    toBoard = stage.Input?.Value.Voltage is not null;
                    break;
            }
            stage = !toBoard ? stage.Input?.Value.Supply : isBoards ? null : node.BoardSupply;
            isBoards |= toBoard;
        }
        return null;
    }

    private static Voltage? DropoutOf(Supply stage) =>
        stage.From?.Value is SupplySource.Adapter or SupplySource.Regulator ? stage.Dropout?.Value ?? RadioRail.RegulatorOf(stage)?.Dropout?.Value : null;
}
