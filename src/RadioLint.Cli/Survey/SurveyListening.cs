using System.Text;
using RadioLint.Cli.Readback;
using RadioLint.Cli.Terminal;
using RadioLint.Readback;
using RadioLint.Survey;
using RadioLint.Units;

namespace RadioLint.Cli.Survey;

/// <summary>Listens to a port for a stated time and stamps each line with its arrival; ends early when it is asked to, when nothing comes and when the port goes. What came is used.</summary>
internal sealed class SurveyListening(SerialLine line, SurveyLogReader reader, SurveyProgress progress, Surroundings around)
{
    // A sweep of the survey program takes some seconds; a board that is reset begins at once.
    private static readonly TimeSpan Silence = TimeSpan.FromSeconds(60);
    private static readonly TimeSpan Turn = TimeSpan.FromMilliseconds(250);

    private readonly LineSplitter splitter = new(SurveyLimits.LongestLine);
    private readonly Decoder decoder = Encoding.UTF8.GetDecoder();
    private readonly byte[] bytes = new byte[4096];
    private readonly char[] characters = new char[4097];

    /// <summary>Listens for so long at most; says why it ended before, null when it did not.</summary>
    public string? Run(TimeSpan most)
    {
        using var stop = new StopSignal();
        var begun = around.Clock.GetTimestamp();
        var heard = begun;
        var silence = most < Silence ? most : Silence;
        var why = (string?)null;
        while (why is null && around.Clock.GetElapsedTime(begun) is var since && since < most)
        {
            var count = line.Read(bytes, most - since < Turn ? most - since : Turn);
            since = around.Clock.GetElapsedTime(begun);
            if (count > 0)
            {
                heard = around.Clock.GetTimestamp();
                Take(count, since);
            }
            why = count < 0 ? $"the port {line} has gone: was it unplugged, or its board switched off?"
                : stop.WaitFor(TimeSpan.Zero) ? FormattableString.Invariant($"ended early after {Lapse.InWords(Of(since))}")
                : count == 0 && since < most && around.Clock.GetElapsedTime(heard) >= silence ? Silent(silence)
                : null;
            progress.Show(since, reader);
        }
        if (splitter.End() is { } last)
            reader.Add(last, Of(around.Clock.GetElapsedTime(begun)));
        progress.End();
        return why ?? (reader.Sweeps == 0 ? Silent(most) : null);
    }

    private void Take(int count, TimeSpan since)
    {
        var made = decoder.GetChars(bytes, 0, count, characters, 0, flush: false);
        foreach (var text in splitter.Add(characters, made))
            reader.Add(text, Of(since));
    }

    private string Silent(TimeSpan time) => FormattableString.Invariant(
        $"{line} has told no sweep for {time.TotalSeconds:0} s: look at the speed, the ground and the direction of the adapter's wires, and whether the board runs the survey program");

    private static Duration Of(TimeSpan time) => new(time.Ticks * 100);
}
