using System.Globalization;
using System.Text.RegularExpressions;

namespace Proof;

/// <summary>
/// Retry delays in microseconds: as written, in turn over receivers and senders by name; or the least that the data sheet's table allows, spread over classes that
/// lie two packets apart among the senders of one receiver.
/// </summary>
internal sealed partial class Repeats
{
    private const int Step = 250, Longest = 4000;
    private static readonly List<(string Rate, int From, int To, int Least)> Least =
    [
        .. Facts.Rows("radio-timing.csv").Where(row => row["symbol"] == "ARD_min").Select(row => (Row: row, Match: AckText().Match(string.Join(" | ", row.Values))))
            .Where(one => one.Match.Success).Select(one => (one.Match.Groups[2].Value, Number(one.Match, 3), Number(one.Match, 4), Number(one.Match, 1))),
    ];

    public static Dictionary<PlainNode, int> Of(List<PlainHop> hops)
    {
        var delays = new Dictionary<PlainNode, int>();
        var asking = hops.Where(hop => hop.IsAcknowledged && !hop.Link.RidesBack).ToList();
        var turn = 0;
        foreach (var group in asking.GroupBy(hop => hop.Receiver).OrderBy(group => group.Key.Name, Names.Natural))
        {
            var senders = group.Select(hop => hop.Sender).Distinct().OrderBy(node => node.Name, Names.Natural).ToList();
            var open = senders.Where(node => !delays.ContainsKey(node) && node.Delays.Count == 0).ToList();
            foreach (var node in senders.Where(node => !delays.ContainsKey(node) && node.Delays.Count > 0))
                delays[node] = node.Delays[turn++ % node.Delays.Count];
            if (open.Count > 0)
                Spread(open, [.. senders.Where(delays.ContainsKey).Select(node => delays[node])], senders.Count > 1, asking, delays);
        }
        return delays;
    }

    private static void Spread(List<PlainNode> open, List<int> settled, bool hasCompany, List<PlainHop> asking, Dictionary<PlainNode, int> delays)
    {
        var least = open.Max(node => LeastOf(node, asking));
        var packet = asking.Where(hop => open.Contains(hop.Sender)).Max(OnAir);
        var classes = new List<int>();
        if (hasCompany)
        {
            for (var delay = Math.Max(least, Up(packet)); delay <= Longest; delay += Up(packet * 2))
                classes.Add(delay);
        }
        var taken = Enumerable.Range(0, classes.Count).Where(i => settled.Exists(one => Math.Abs(one - classes[i]) < packet * 2)).ToHashSet();
        if (taken.Count == classes.Count)
            taken.Clear();
        foreach (var node in open)
        {
            if (classes.Count < 2)
            {
                delays[node] = classes.Count == 1 ? classes[0] : LeastOf(node, asking);
                continue;
            }
            var wanted = Preference(node) % classes.Count;
            for (var tries = 0; tries < classes.Count && taken.Contains(wanted); tries++)
                wanted = (wanted + 1) % classes.Count;
            delays[node] = classes[wanted];
            taken.Add(wanted);
            if (taken.Count == classes.Count)
                taken.Clear();
        }
    }

    // What rides back makes the acknowledgement longer (Table 18 p34, Table 28 notes a and d p63).
    private static int LeastOf(PlainNode node, List<PlainHop> asking) => asking.Where(hop => hop.Sender == node).Max(hop =>
    {
        var back = Math.Min(32, hop.Riders.Select(rider => rider.Link.Bytes).DefaultIfEmpty().Max());
        return Least.First(row => row.Rate == node.Rate && row.From <= back && back <= row.To).Least;
    });

    /// <summary>Microseconds, with the fraction: Table 19 p42; an acknowledged packet has a check sum of at least a byte.</summary>
    public static decimal OnAir(PlainHop hop)
    {
        var bits = (8 * (1 + hop.Sender.Width + Math.Min(32, hop.SentBytes) + Math.Max(1, hop.Sender.Crc))) + 9;
        return bits * BitTime(hop.Sender.Rate);
    }

    public static decimal BitTime(string rate) => rate switch { "250 kbps" => 4m, "1 Mbps" => 1m, "2 Mbps" => 0.5m, _ => throw new UnjudgedException(rate) };

    private static int Up(decimal time) => (int)Math.Ceiling(time / Step) * Step;

    private static int Preference(PlainNode node)
    {
        if (node.Name.Length > node.Entry.Length && node.Name[(node.Entry.Length + 1)..] is { Length: <= 6 } suffix && suffix.All(char.IsAsciiDigit))
            return suffix == "0" ? 0 : int.Parse(suffix, CultureInfo.InvariantCulture) - 1;
        return node.Name.Aggregate(0, (sum, c) => ((sum * 31) + c) & 0xFFFF);
    }

    private static int Number(Match match, int group) => int.Parse(match.Groups[group].Value, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"ARD_min \| ([0-9]+) \| us \| (250 kbps|1 Mbps|2 Mbps); 5-byte address; ACK payload ([0-9]+) to ([0-9]+) bytes")]
    private static partial Regex AckText();
}
