using RadioLint.Cli.Output;
using RadioLint.Cli.Terminal;
using RadioLint.Survey;
using RadioLint.Units;

namespace RadioLint.Cli.Survey;

/// <summary>What is shown while a port is listened to: on a terminal a bar, the time left and the picture, in place; elsewhere a plain line at each tenth of the time.</summary>
/// <param name="rank">The ranking of what has come so far.</param>
internal sealed class SurveyProgress(TimeSpan most, Func<ChannelRanking> rank, Surroundings around)
{
    private const int BarWidth = 30;
    private const int Tenths = 10;

    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(1);

    private TimeSpan? shown;
    private long sweeps;
    private int tenth;
    private int height;

    /// <summary>Shows how things stand, where it is time to.</summary>
    public void Show(TimeSpan since, SurveyLogReader reader)
    {
        if (!around.IsWatched)
        {
            Tell(since, reader);
            return;
        }
        if (shown is { } last && since - last < Pause)
            return;
        shown = since;
        var lines = new List<string>();
        // The picture needs its width, and a terminal whose cursor goes up.
        if (around.MovesCursor && (around.Width ?? BandPicture.Width) >= BandPicture.Width && reader.Sweeps > 0)
        {
            var ranking = rank();
            lines.AddRange(BandPicture.Lines(ranking, ranking.Ranked.FirstOrDefault()?.Channel));
        }
        lines.Add(Bar(since, reader));
        Erase();
        around.Notes.Write(string.Join('\n', lines));
        around.Notes.Flush();
        height = lines.Count;
    }

    /// <summary>Takes away what was shown in place.</summary>
    public void End()
    {
        if (!around.IsWatched || height == 0)
            return;
        Erase();
        around.Notes.Flush();
        height = 0;
    }

    // ECMA-48: up so many lines, then erase to the end of the screen. Without a cursor that moves there is one line, written over.
    private void Erase()
    {
        if (around.MovesCursor)
            around.Notes.Write(height > 1 ? FormattableString.Invariant($"\r\u001b[{height - 1}A\u001b[J") : "\r\u001b[J");
        else
            around.Notes.Write($"\r{new string(' ', BandPicture.Width - 1)}\r");
    }

    private string Bar(TimeSpan since, SurveyLogReader reader)
    {
        var full = (int)Math.Min(BarWidth, since.Ticks * BarWidth / most.Ticks);
        return FormattableString.Invariant($"[{new string('#', full)}{new string('.', BarWidth - full)}] {Left(since)} left, {Heard(reader)}");
    }

    private void Tell(TimeSpan since, SurveyLogReader reader)
    {
        var now = (int)Math.Min(Tenths, since.Ticks * Tenths / most.Ticks);
        if (now == tenth || now == Tenths || (reader.Sweeps == sweeps && sweeps > 0))
            return;
        (tenth, sweeps) = (now, reader.Sweeps);
        around.Note($"{Lapse.InWords(new(since.Ticks * 100))} listened, {Left(since)} left, {Heard(reader)}");
    }

    private string Left(TimeSpan since) => Lapse.InWords(new Duration(Math.Max(0, (most - since).Ticks) * 100));

    private static string Heard(SurveyLogReader reader)
    {
        var sweeps = FormattableString.Invariant($"{reader.Sweeps} sweep{(reader.Sweeps == 1 ? "" : "s")}");
        return reader.Broken == 0 ? sweeps : $"{sweeps}, {TextReport.Count(reader.Broken, "broken line")}";
    }
}
