using System.Collections.Immutable;

namespace RadioLint.Model;

/// <summary>
/// The order in which fields are best sent. Constants that a program reads before it knows the rest, type and version, come first. Then natural layout has the fewest bytes, and
/// packed layout the fewest fields that do not stand at a multiple of their size; among equals the widest come first, then those written first.
/// </summary>
public static class AlignedOrder
{
    private const int PacketRoom = 32;

    /// <summary>The fields of a payload in that order; as they are where their sizes are not known, or no packet holds them (RL6105).</summary>
    public static ImmutableArray<Field> Of(Payload payload)
    {
        if (!payload.HasKnownSize || payload.SizeAt(1) > PacketRoom || payload.Fields.Length > PacketRoom)
            return payload.Fields;
        var first = payload.Fields.Where(IsReadFirst).OrderBy(field => field.Role, StringComparer.Ordinal).ToList();
        var rest = payload.Fields.Where(field => !IsReadFirst(field)).OrderByDescending(Alignment).ToList();
        return ImmutableArray.CreateRange(first.Concat(new Search(rest, payload.IsNatural, first).Order()));
    }

    /// <summary>Fields that do not stand at a multiple of their size.</summary>
    public static int Unaligned(Payload payload) => payload.Layout().Count(placed => placed.Offset % Alignment(placed.Field) != 0);

    private static bool IsReadFirst(Field field) => field is { Role: "type" or "version", Constant: not null };

    private static int Alignment(Field field) => Payload.Alignment(field, Payload.NaturalAlignment);

    /// <summary>Tries every order once for each set of fields that are left and each place where they begin; fields of one size and alignment are alike.</summary>
    private sealed class Search
    {
        private readonly List<Field> fields;
        private readonly bool isNatural;
        private readonly int start;
        private readonly int widest;
        private readonly Dictionary<(uint Left, int At), (int Cost, int Pick)> known = [];

        public Search(List<Field> fields, bool isNatural, List<Field> before)
        {
            (this.fields, this.isNatural) = (fields, isNatural);
            widest = fields.Concat(before).Select(Alignment).DefaultIfEmpty(1).Max();
            foreach (var field in before)
                start = Placed(field, start) + field.Size;
        }

        public IEnumerable<Field> Order()
        {
            var (left, at) = (fields.Count == PacketRoom ? uint.MaxValue : (1u << fields.Count) - 1, start);
            while (left != 0)
            {
                var pick = Best(left, at).Pick;
                yield return fields[pick];
                (left, at) = (left & ~(1u << pick), Placed(fields[pick], at) + fields[pick].Size);
            }
        }

        private (int Cost, int Pick) Best(uint left, int at)
        {
            if (left == 0)
                return (isNatural ? Payload.Aligned(at, widest) : 0, -1);
            if (known.TryGetValue((left, at), out var best))
                return best;
            best = (int.MaxValue, -1);
            for (var pick = 0; pick < fields.Count; pick++)
            {
                if ((left >> pick & 1) == 0 || IsLikeEarlier(left, pick))
                    continue;
                var field = fields[pick];
                var cost = Best(left & ~(1u << pick), Placed(field, at) + field.Size).Cost + (!isNatural && at % Alignment(field) != 0 ? 1 : 0);
                if (cost < best.Cost)
                    best = (cost, pick);
            }
            known.Add((left, at), best);
            return best;
        }

        private bool IsLikeEarlier(uint left, int pick)
        {
            for (var earlier = 0; earlier < pick; earlier++)
            {
                if ((left >> earlier & 1) == 1 && Alignment(fields[earlier]) == Alignment(fields[pick]) && fields[earlier].Size == fields[pick].Size)
                    return true;
            }
            return false;
        }

        private int Placed(Field field, int at) => isNatural ? Payload.Aligned(at, Alignment(field)) : at;
    }
}
