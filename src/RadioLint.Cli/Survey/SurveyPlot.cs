using System.Globalization;
using System.Security;
using System.Text;
using RadioLint.Spectrum;
using RadioLint.Survey;
using RadioLint.Units;

namespace RadioLint.Cli.Survey;

/// <summary>
/// Occupancy over frequency as one SVG (W3C Scalable Vector Graphics 1.1): no script, no fonts or images from elsewhere, nothing told by colour alone. Whole pixels, so that
/// it is the same everywhere.
/// </summary>
internal sealed class SurveyPlot
{
    private const int PerChannel = 7;
    private const int Left = 62;
    private const int Right = Left + (PerChannel * Sweep.Channels);
    private const int Step = 24;
    private const int Lane = 18;
    private const int MostLanes = 14;
    private const int LongestName = 40;

    private const string Caption =
        "share of time in steps of 1, 2, 5; full bars may be used, hatched ones are for listening only; thin lines are 95 % intervals; the rules of the place of use govern";

    private const string Style = """
        <style>
        text { font: 12px sans-serif; fill: #222 } .small { font-size: 11px } .grid { stroke: #ccc } .may { stroke: #222 }
        .open { fill: #2b6a8f } .out { fill: url(#hatch); stroke: #999 } .edge { stroke: #a33; stroke-dasharray: 6 3 }
        .band { fill: #d9b44a; fill-opacity: 0.35; stroke: #8a6d1d } .planned { fill: none; stroke: #222; stroke-width: 2 } .best { fill: #222 }
        </style>
        """;

    // Shares in millionths at which lines are drawn; between two of them the scale is even.
    private static readonly int[] Steps = [0, 1_000, 2_000, 5_000, 10_000, 20_000, 50_000, 100_000, 200_000, 500_000, 1_000_000];

    private readonly StringBuilder svg = new();
    private readonly ChannelRanking ranking;
    private readonly IReadOnlyList<SurveyedNetwork> networks;
    private readonly int top;
    private readonly int bottom;

    private SurveyPlot(IReadOnlyList<SurveyedNetwork> networks)
    {
        this.networks = networks;
        ranking = networks[0].Ranking;
        top = 74 + (Lane * Math.Min(ranking.Systems.Length, MostLanes));
        bottom = top + (Step * (Steps.Length - 1));
    }

    /// <summary>The picture for the first network, with the channels of all.</summary>
    public static byte[] Draw(IReadOnlyList<SurveyedNetwork> networks)
    {
        var plot = new SurveyPlot(networks);
        plot.Head();
        plot.Scale();
        plot.Bars();
        plot.Edges(networks[0].Network.Band);
        plot.Neighbours();
        plot.Marks();
        plot.svg.Append("</svg>\n");
        return Encoding.UTF8.GetBytes(plot.svg.ToString());
    }

    private int Height => bottom + 62 + (Lane * networks.Count);

    private void Head()
    {
        var first = networks[0];
        Line($"""<svg xmlns="http://www.w3.org/2000/svg" width="{Right + 24}" height="{Height}" viewBox="0 0 {Right + 24} {Height}" role="img" aria-labelledby="title desc">""");
        Line($"""<title id="title">Survey for {Escaped(Cut(first.Name))}</title>""");
        var verdicts = string.Join(" ", networks.Select(one => $"{Cut(one.Name)}: {SurveyWords.Verdict(one)}."));
        Line($"""<desc id="desc">How often each channel from 2400 MHz to 2525 MHz was busy. {Escaped(verdicts)} {Escaped(SurveyWords.Time(ranking))}.</desc>""");
        Line($"{Style}");
        Line($"""<defs><pattern id="hatch" width="6" height="6" patternUnits="userSpaceOnUse"><path d="M0 6 L6 0" stroke="#888"/></pattern></defs>""");
        Line($"""<rect width="100%" height="100%" fill="#fff"/>""");
        Line($"""<text x="{Left}" y="22">{Escaped(Cut(first.Name))}: listened at {Escaped(Cut(string.Join(", ", ranking.Places)))}</text>""");
        Line($"""<text class="small" x="{Left}" y="40">{Caption}</text>""");
    }

    private void Scale()
    {
        for (var i = 0; i < Steps.Length; i++)
        {
            var y = bottom - (Step * i);
            Line($"""<path class="grid" d="M{Left} {y} H{Right}"/><text class="small" x="{Left - 6}" y="{y + 4}" text-anchor="end">{new Share(Steps[i])}</text>""");
        }
        for (var channel = 0; channel < Sweep.Channels; channel += 10)
        {
            Line($"""<text class="small" x="{Middle(channel)}" y="{bottom + 15}" text-anchor="middle">{channel}</text>""");
            Line($"""<text class="small" x="{Middle(channel)}" y="{bottom + 29}" text-anchor="middle">{2400 + channel}</text>""");
        }
        Line($"""<text class="small" x="{Left - 16}" y="{bottom + 15}" text-anchor="end">channel</text>""");
        Line($"""<text class="small" x="{Left - 16}" y="{bottom + 29}" text-anchor="end">MHz</text>""");
    }

    private void Bars()
    {
        foreach (var channel in ranking.Channels.Where(each => each.Samples > 0))
        {
            var (x, y) = (Left + (PerChannel * channel.Channel), Y(channel.Busy));
            if (y < bottom)
                Line($"""<rect class="{(channel.Rank is null ? "out" : "open")}" x="{x + 1}" y="{y}" width="{PerChannel - 2}" height="{bottom - y}"><title>channel {channel.Channel}: {channel.Busy}</title></rect>""");
            if (Y(channel.Interval.High) < Y(channel.Interval.Low))
                Line($"""<path class="may" d="M{Middle(channel.Channel)} {Y(channel.Interval.Low)} V{Y(channel.Interval.High)}"/>""");
        }
    }

    private void Edges(BandRule band)
    {
        foreach (var (edge, anchor, away) in new[] { (band.Band.Low, "start", 4), (band.Band.High, "end", -4) })
        {
            if (At(edge) is not (>= Left and <= Right and var x))
                continue;
            var region = Escaped(Cut(networks[0].Network.RegionCode?.Value ?? "an undeclared region"));
            Line($"""<path class="edge" d="M{x} {top - 12} V{bottom}"/>""");
            Line($"""<text class="small" x="{x + away}" y="{top - 4}" text-anchor="{anchor}">{edge.InMegahertz()}, edge of the band of {region}</text>""");
        }
    }

    private void Neighbours()
    {
        var y = 50;
        foreach (var system in ranking.Systems.Take(MostLanes))
        {
            var (from, to) = (Math.Clamp(At(system.Occupied.Low), Left, Right), Math.Clamp(At(system.Occupied.High), Left, Right));
            var known = system.IsHeard ? system.IsDeclared ? "declared and heard" : "heard" : "declared";
            Line($"""<rect class="band" x="{from}" y="{y}" width="{Math.Max(1, to - from)}" height="{Lane - 4}"/>""");
            Line($"""<text class="small" x="{to + 5}" y="{y + 11}">{Escaped(SystemNames.Of(system))}, {known}</text>""");
            y += Lane;
        }
    }

    // A ring for what is planned, a full mark for what should be taken; a word beside each.
    private void Marks()
    {
        var y = bottom + 48;
        foreach (var one in networks)
        {
            var name = networks.Count > 1 ? $"{Escaped(Cut(one.Name))}: " : "";
            var (planned, best) = (one.Ranking.Planned, one.Channel);
            if (planned is { } number)
                Line($"""<circle class="planned" cx="{Middle(number)}" cy="{y - 4}" r="6"/>""");
            if (best is { } proposed)
                Line($"""<circle class="best" cx="{Middle(proposed)}" cy="{y - 4}" r="3"/>""");
            var ring = planned is null ? "none planned" : FormattableString.Invariant($"ring: planned {planned}");
            var dot = best is null ? "no channel to propose" : FormattableString.Invariant($"dot: best {best}");
            Line($"""<text class="small" x="{Math.Max(Middle(planned ?? 0), Middle(best ?? 0)) + 12}" y="{y}">{name}{ring}, {dot}</text>""");
            y += Lane;
        }
    }

    private static int Middle(int channel) => Left + (PerChannel * channel) + (PerChannel / 2);

    // A channel's middle is its carrier, so the first begins half a megahertz below 2400 MHz.
    private static int At(Frequency frequency) => (int)(Left + ((frequency.Hertz - 2_399_500_000) * PerChannel / 1_000_000));

    private int Y(Share share)
    {
        var at = Math.Clamp(share.Millionths, 0, 1_000_000);
        var i = 1;
        while (at > Steps[i])
            i++;
        var within = (at - Steps[i - 1]) * Step / (Steps[i] - Steps[i - 1]);
        return bottom - (Step * (i - 1)) - (int)(at > 0 && i == 1 ? Math.Max(1, within) : within);
    }

    private void Line(FormattableString text) => svg.Append(text.ToString(CultureInfo.InvariantCulture).ReplaceLineEndings("\n")).Append('\n');

    // Names come out of files: of any length, and with characters that XML has no place for.
    private static string Cut(string text) => text.Length > LongestName ? text[..(LongestName - 3)] + "..." : text;

    private static string Escaped(string text) =>
        SecurityElement.Escape(string.Concat(text.EnumerateRunes().Select(rune => rune.Value is < ' ' or 0xFFFE or 0xFFFF ? "\uFFFD" : rune.ToString())));
}
