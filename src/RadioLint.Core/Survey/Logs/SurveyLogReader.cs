using System.Collections.Immutable;
using RadioLint.Readback;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>
/// Reads a survey's log line by line: `rl1 sweep` reports, or a table with a header. Memory does not grow with the log. What is wrong with a line costs that line alone.
/// </summary>
/// <param name="name">The log as findings name it.</param>
/// <param name="take">Called for each sweep, with its place and, where it is known, its time.</param>
public sealed class SurveyLogReader(string name, SurveyTerms terms, Action<Sweep> take)
{
    private readonly LogRemarks remarks = new();
    private readonly LogClock stamps = new();
    private readonly SweepTotals totals = new();
    private SweepReports? reports;
    private TableReader? table;
    private (Place Place, string Fault)? firstBroken;
    private (Duration Time, Place Place)? leastDwell;
    private SurveyForm form;
    private SourceText? start;
    private SourceText line = new(name, "");
    private Duration? arrived;
    private int lines, broken, tooLong, rowsPassedOver, looked;
    private bool isCut, endsOpen;

    /// <summary>How many sweeps have come; for those who wait for a live port.</summary>
    public long Sweeps => totals.Sweeps;

    public int Broken => broken;

    /// <summary>Takes the next line. False when no further one is wanted.</summary>
    /// <param name="since">When it came, counted from the beginning; for a log that is listened to.</param>
    public bool Add(LogLine next, Duration? since = null)
    {
        if (lines == SurveyLimits.MostLines)
        {
            isCut = true;
            return false;
        }
        lines++;
        arrived = since;
        if (next.IsTooLong)
        {
            tooLong++;
            return true;
        }
        line = new(name, next.Text, next.Number);
        start ??= line;
        if (ReportText.IsIn(next.Text))
            AddReports(next.Text);
        else if (next.Text.TrimStart() is ['#', ..])
            remarks.Take(line);
        else if (next.Text.Length > 0 && form != SurveyForm.Reports)
            AddRow(next);
        return true;
    }

    /// <summary>All that was read.</summary>
    public SurveyLog End()
    {
        reports?.End();
        table?.End();
        var clock = table?.Clock ?? stamps;
        var hasTimes = arrived is not null || clock.Elapsed is not null;
        return new()
        {
            Name = name, Form = form, Lines = lines, Sweeps = totals.Sweeps, Broken = broken, FirstBroken = firstBroken, TooLong = tooLong,
            PassedOver = totals.PassedOver + rowsPassedOver + (table?.PassedOver ?? 0), Outside = table?.Outside ?? 0, IsCut = isCut, EndsOpen = endsOpen, HasTimes = hasTimes,
            Begun = clock.Begun ?? remarks.Started ?? terms.Started,
            Lasted = arrived ?? clock.Elapsed ?? terms.Lasted ?? totals.Listened,
            Dwell = leastDwell ?? remarks.Dwell, Start = new(start ?? line, 0, (start ?? line).Text.TrimEnd().Length),
            Places = totals.Places, Samples = totals.Samples, Heard = totals.Heard,
        };
    }

    private void AddReports(string text)
    {
        var at = arrived ?? Stamp(text, text.IndexOf("rl1 ", StringComparison.Ordinal));
        foreach (var (report, place, fault) in ReportText.In(line))
        {
            if (report is null)
            {
                Break(place, fault);
                continue;
            }
            if (report.Kind == "sweep" && form != SurveyForm.Reports)
                Begin(SurveyForm.Reports);
            reports ??= new(Hand);
            if (reports.Take(report, at) is var (word, wrong))
                Break(word, wrong);
            else if (report.Kind == "sweep" && Decimals.TryWhole(report.Fields[1].Text, 0, report.Fields[1].Text.Length, int.MaxValue, out var dwell))
                Tell(Duration.FromMicroseconds(dwell), report.Fields[1].Place);
        }
    }

    // A terminal may write the time before each line, a date or a time of the day: a bare number may be anything.
    private Duration? Stamp(string text, int end)
    {
        var (from, to) = (0, end);
        while (from < end && !IsDigit(text[from]))
            from++;
        while (to > from && !IsDigit(text[to - 1]))
            to--;
        return text.IndexOf(':', from, to - from) >= 0 && stamps.TryTake(text, from, to) ? stamps.Elapsed : null;
    }

    private static bool IsDigit(char c) => c is >= '0' and <= '9';

    private void AddRow(LogLine next)
    {
        if (next.IsOpen)
        {
            endsOpen = true;
        }
        else if (table is not null)
        {
            if (table.Take(next.Text, arrived) is not { } fault)
            {
                if (table.Dwell is var (dwell, from, to))
                    Tell(dwell, new(line, from, to - from));
                return;
            }
            // Logs that are put one behind the other bring their headers along.
            if (HeaderIn(next.Text).Header is { } another)
                Begin(another);
            else
                Break(new(line, fault.From, fault.To - fault.From), fault.Words);
        }
        else if (HeaderIn(next.Text) is var (header, missing) && header is not null)
        {
            Begin(header);
        }
        else if (missing is not null)
        {
            Break(new(line, 0, next.Text.TrimEnd().Length), $"it looks like a header, but {missing}");
        }
    }

    // To look for a header takes longer than to read a row: where nothing is as it should be, that ends.
    private (TableHeader? Header, string? Fault) HeaderIn(string row) => ++looked > SurveyLimits.MostLooks ? (null, null) : TableHeader.Read(row);

    private void Begin(TableHeader header)
    {
        rowsPassedOver += table?.PassedOver ?? 0;
        table?.End();
        table = new(header, terms.Threshold, Hand);
        Begin(table.IsOfLevels ? SurveyForm.Levels : SurveyForm.Counts);
    }

    private void Begin(SurveyForm now)
    {
        form = now;
        if (now == SurveyForm.Reports)
        {
            table?.End();
            table = null;
        }
    }

    // Each sweep goes out with its place, its dwell and its time: the log's own, else what listening took at least.
    private void Hand(Sweep sweep)
    {
        var (where, dwell) = (terms.Place ?? sweep.Where ?? remarks.Where ?? name, sweep.Dwell ?? remarks.Dwell?.Time ?? terms.Dwell);
        if (totals.Add(sweep, where, dwell) is not { } listened)
            return;
        var named = new Sweep
        {
            Where = where, Number = sweep.Number, Dwell = dwell, At = sweep.At ?? (listened.Nanoseconds > 0 ? listened : null),
            // What tells levels is an instrument, and a channel the narrowest that it is asked for; what counts is the radio's own detector.
            Width = form == SurveyForm.Levels ? Frequency.FromMegahertz(1) : null,
        };
        sweep.Samples.CopyTo(named.Samples, 0);
        sweep.Heard.CopyTo(named.Heard, 0);
        take(named);
    }

    private void Tell(Duration dwell, Place place)
    {
        if (leastDwell is not { } least || dwell < least.Time)
            leastDwell = (dwell, place);
    }

    private void Break(Place place, string fault)
    {
        broken++;
        firstBroken ??= (place, fault);
    }
}
