using System.Text;
using RadioLint.Survey;

namespace RadioLint.Cli.Survey;

/// <summary>The band on a terminal: 80 columns, plain characters, no colour. Two channels a column; the busier one counts. Heights go 1, 2, 5, so that pictures can be compared.</summary>
internal static class BandPicture
{
    public const int Width = 80;

    private const int Columns = Sweep.Channels / 2;
    private const int MostSystems = 10;
    private const string Margin = "       ";

    private static readonly (int Millionths, string Label)[] Steps =
    [
        (500_000, "  50 %"), (200_000, "  20 %"), (100_000, "  10 %"), (50_000, "   5 %"), (20_000, "   2 %"), (10_000, "   1 %"), (5_000, " 0.5 %"), (2_000, " 0.2 %"), (1, "  some"),
    ];

    /// <summary>Its lines, and what the marks mean below.</summary>
    /// <param name="best">The channel that should be taken; null when there is none.</param>
    public static IReadOnlyList<string> Lines(ChannelRanking ranking, int? best)
    {
        var lines = new List<string> { "  busy" };
        lines.AddRange(Steps.Select(step => $"{step.Label} |{Row(ranking, step.Millionths)}".TrimEnd()));
        lines.Add($"{Margin}+{Axis(ranking)}".TrimEnd());
        lines.Add($"channel {Scale()}");
        if (Marks(ranking, best) is { } marks)
            lines.Add($"{Margin} {marks}".TrimEnd());
        lines.AddRange(ranking.Systems.Take(MostSystems).Select(Neighbour));
        if (ranking.Systems.Length > MostSystems)
            lines.Add(FormattableString.Invariant($"{Margin} and {ranking.Systems.Length - MostSystems} more"));
        lines.Add(Legend(ranking, best));
        return lines;
    }

    private static string Row(ChannelRanking ranking, int least)
    {
        var row = new StringBuilder(Columns);
        for (var column = 0; column < Columns; column++)
        {
            var (one, other) = (ranking.Channels[2 * column], ranking.Channels[(2 * column) + 1]);
            var (high, low) = other.Busy.Millionths > one.Busy.Millionths ? (other, one) : (one, other);
            // Of two that are as high the one that may be used gives the mark.
            var isOpen = high.Rank is not null || (low.Rank is not null && low.Busy.Millionths >= least);
            row.Append(high.Busy.Millionths < least ? ' ' : isOpen ? '#' : ':');
        }
        return row.ToString();
    }

    // Where one may send, where one may only listen, and where nobody has listened.
    private static string Axis(ChannelRanking ranking) => string.Concat(Enumerable.Range(0, Columns).Select(column =>
    {
        var (one, other) = (ranking.Channels[2 * column], ranking.Channels[(2 * column) + 1]);
        return one.Rank is not null || other.Rank is not null ? '=' : one.Samples + other.Samples > 0 ? '.' : ' ';
    }));

    // A number begins in its channel's column.
    private static string Scale() => string.Concat(Enumerable.Range(0, 13).Select(ten => FormattableString.Invariant($"{ten * 10}").PadRight(5))).TrimEnd();

    private static string? Marks(ChannelRanking ranking, int? best)
    {
        if (ranking.Planned is null && best is null)
            return null;
        var marks = new string(' ', Columns).ToCharArray();
        if (best is { } proposed)
            marks[proposed / 2] = 'B';
        if (ranking.Planned is { } planned)
            marks[planned / 2] = marks[planned / 2] == 'B' ? '*' : 'P';
        return new(marks);
    }

    private static string Neighbour(SystemInBand system)
    {
        var from = Column(system.Occupied.Low.Hertz);
        var to = Math.Max(from, Column(system.Occupied.High.Hertz - 1));
        var band = to == from ? "|" : $"<{new string('-', to - from - 1)}>";
        var known = (system.IsDeclared, system.IsHeard) switch { (true, true) => "declared, heard", (true, _) => "declared", _ => "heard" };
        return $"{Margin} {new string(' ', from)}{band} {SystemNames.Short(system)}, {known}";
    }

    // The column in which a frequency lies: a channel reaches half a megahertz either way.
    private static int Column(long hertz) => (int)Math.Clamp((hertz - 2_399_500_000) / 2_000_000, 0, Columns - 1);

    private static string Legend(ChannelRanking ranking, int? best)
    {
        var parts = new List<string> { "# may be used", ": and . listening only" };
        if (ranking.Planned is { } planned && planned / 2 == best / 2)
            parts.Add(planned == best ? FormattableString.Invariant($"* planned and best, {planned}") : FormattableString.Invariant($"* planned {planned}, best {best}"));
        else
        {
            if (ranking.Planned is { } alone)
                parts.Add(FormattableString.Invariant($"P planned, {alone}"));
            if (best is not null)
                parts.Add(FormattableString.Invariant($"B best, {best}"));
        }
        return Margin + " " + string.Join("   ", parts);
    }
}
