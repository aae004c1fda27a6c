using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Wiring;

/// <summary>Where further lines of the radio may be written.</summary>
internal static class FurtherPins
{
    /// <summary>In the node's own map only: what several nodes share may hold for other boards. Null where there is no such place.</summary>
    public static Edit? For(Node node, params (string Signal, string Label)[] pins)
    {
        if (pins.Length == 0)
            return null;
        if (!node.Writes("pins"))
            return FurtherKey.BehindBoard(node, "pins", KeyEdit.Map(node.Place, pins));
        var map = node.Wiring.Place;
        var beside = node.Wiring.Lines()
            .Where(line => line.Use is { } use && map.Contains(use.Place) && KeyEdit.CanFollow(use.Place))
            .Select(line => line.Use!.Place).Cast<Place?>().FirstOrDefault();
        return beside is { } place && node.Place.Contains(map) ? KeyEdit.After(map, place, pins) : null;
    }
}
