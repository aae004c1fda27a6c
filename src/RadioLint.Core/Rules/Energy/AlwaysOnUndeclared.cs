using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Rules.Energy;

/// <summary>RL7103: nobody says what the board's own parts draw while the node sleeps.</summary>
public sealed class AlwaysOnUndeclared() : Rule(new(
    "RL7103", Severity.Warning, "Always-on parts not declared",
    "`always-on`, `removed` or `current` is stated, and a measured current asleep is at most twice the planned one, own threshold; power LED 1 mA to 3 mA, USB bridge up to 15 mA, " +
    "regulator 1 uA to 11 mA, values from memory",
    "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { Sleep: { } sleep, Board: { } board } || BatteryPath.OfController(node) is null)
                continue;
            if (node.Measured?.Sleep is { } measured)
            {
                if (Planned(node, sleep) is { } planned && measured.Value > planned * 2)
                {
                    yield return At(
                        node, measured.Place,
                        $"`{node.Label}` asleep was measured at {measured.Value}, {measured.Value - planned} above what its parts draw: something on the board is always on",
                        $"look for a power LED, a USB bridge, a regulator, a pull-up or a floating line, and declare or remove it");
                }
            }
            else if (sleep.Current is null && !board.StatesAlwaysOn && board.Removed.IsEmpty)
            {
                yield return At(
                    node, node.BoardPlace.FirstLine,
                    $"`{node.Label}` sleeps on a battery, and nothing says what its board draws meanwhile: a power LED 1 mA to 3 mA, a USB bridge up to 15 mA",
                    $"state `always-on: {{ power LED: 1.5 mA }}` or `removed: [power LED, USB bridge, regulator]` of the board, `always-on: {{}}` of a bare chip, or `current` under `sleep`");
            }
        }
    }

    // Null while a part of it is not known.
    private static Current? Planned(Node node, Sleep sleep)
    {
        if (sleep.Current is { } stated)
            return stated.Value;
        if (ControllerCurrent.Asleep(node) is not { } controller || node.Part is not { } part)
            return null;
        var sum = controller.High + BoardParts.OnBoard(node.Board).Aggregate(new Current(0), (all, one) => all + one.Current);
        foreach (var regulator in BatteryRegulator.Of(node))
            sum += regulator.Quiescent?.High ?? new Current(0);
        return sum + (sleep.Radio?.Value is RadioRest.Standby ? part.Currents.Standby.Value : part.Currents.PowerDown.Value);
    }
}
