using System.Diagnostics;
using System.Text;
using RadioLint.Cli.Output;
using RadioLint.Cli.Terminal;
using RadioLint.Readback;

namespace RadioLint.Cli.Readback;

/// <summary>What ended the listening to a port.</summary>
/// <param name="Note">In words; null when all was told.</param>
/// <param name="IsOfPort">True when the port itself is at fault: worth a note even after a whole listing.</param>
internal sealed record LiveEnd(string? Note, bool IsOfPort);

/// <summary>Listens to a port until a node, or every node heard of, has told its registers; ends by itself when nothing comes, when too much does, and when the port goes.</summary>
internal sealed class LiveListening(SerialLine line, LogReader reader, string? node, Surroundings around)
{
    // A node that is reset prints at once; one that is waited for beats each second.
    private static readonly TimeSpan Silence = TimeSpan.FromSeconds(10);
    private static readonly TimeSpan Turn = TimeSpan.FromMilliseconds(250);

    // What follows a listing: is there another node behind the same port?
    private static readonly TimeSpan Afterwards = TimeSpan.FromMilliseconds(500);

    private readonly LineSplitter splitter = new();
    private readonly Decoder decoder = Encoding.UTF8.GetDecoder();
    private readonly byte[] bytes = new byte[4096];
    private readonly char[] characters = new char[4097];
    private bool isShown;

    /// <summary>Listens for so long at most.</summary>
    public LiveEnd Run(TimeSpan most)
    {
        around.Note(FormattableString.Invariant($"listening to {line}, {most.TotalSeconds:0} s at most; reset the board if it says nothing"));
        var all = Stopwatch.StartNew();
        var silent = Stopwatch.StartNew();
        var silence = most < Silence ? most : Silence;
        var (heard, told) = (false, -1);
        while (all.Elapsed < most)
        {
            var count = line.Read(bytes, reader.HasListingOf(node) ? Afterwards : Turn);
            if (count < 0)
                return Ended($"the port {line} has gone{(reader.Registers > 0 ? ", and what it said so far is used" : "")}: was it unplugged, or its board switched off?", isOfPort: true);
            if (count == 0 && reader.HasListingOf(node))
                return Ended(null);
            if (count == 0 && silent.Elapsed >= silence)
                return Ended(FormattableString.Invariant($"{line} has said nothing for {silence.TotalSeconds:0} s: look at the speed, the ground and the direction of the adapter's wires, and whether the board runs a program that prints"));
            if (count > 0)
            {
                silent.Restart();
                heard = true;
                Take(count);
            }
            if (reader.Registers != told)
                Show(told = reader.Registers, all.Elapsed);
        }
        return Ended(FormattableString.Invariant(
            $"{line} was listened to for {most.TotalSeconds:0} s{(heard && reader.Registers == 0 ? ", and no report of a register came: reset the board, or look at the speed" : "")}"));
    }

    private void Take(int count)
    {
        var made = decoder.GetChars(bytes, 0, count, characters, 0, flush: false);
        foreach (var text in splitter.Add(characters, made))
            reader.Add(text);
    }

    private LiveEnd Ended(string? why, bool isOfPort = false)
    {
        if (splitter.End() is { } last)
            reader.Add(last);
        if (isShown)
            around.Notes.WriteLine();
        return new(why, isOfPort);
    }

    // One line that is written over, where somebody watches.
    private void Show(int registers, TimeSpan since)
    {
        if (!around.IsWatched || registers == 0)
            return;
        around.Notes.Write(FormattableString.Invariant($"\rradiolint: {TextReport.Count(registers, "register")} after {since.TotalSeconds:0} s"));
        around.Notes.Flush();
        isShown = true;
    }
}
