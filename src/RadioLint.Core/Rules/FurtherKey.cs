using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules;

/// <summary>Where a key may be offered that a node does not write yet.</summary>
internal static class FurtherKey
{
    /// <summary>
    /// Behind the board in the node's own map, where that stands on the line of its key; null elsewhere: what several nodes share may hold
    /// for other boards. Null as well where the key is written, even without a value.
    /// </summary>
    public static Edit? BehindBoard(Node node, string key, string text) =>
        !node.Writes(key) && node.Place.Contains(node.BoardPlace) && KeyEdit.CanFollow(node.BoardPlace) ? KeyEdit.After(node.Place, node.BoardPlace, key, text) : null;
}
