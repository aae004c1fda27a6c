using RadioLint.Cli.Files;
using RadioLint.Cli.Output;
using RadioLint.Cli.Terminal;

namespace RadioLint.Cli.Checking;

/// <summary>Everything that was asked for, checked once.</summary>
/// <param name="Outcome">What was found.</param>
/// <param name="Manifests">The manifests.</param>
/// <param name="Others">Files that they took something from, or would if those were there, as full paths.</param>
internal sealed record Look(CheckOutcome Outcome, IReadOnlyList<ManifestFile> Manifests, IReadOnlyCollection<string> Others);

/// <summary>
/// `check --watch`: looks again when a file was saved, and tells what changed. It asks the file system at intervals: that works on every system and on shared
/// folders, and costs a twentieth of one processor at most.
/// </summary>
/// <param name="look">Checks everything once.</param>
/// <param name="manifests">Where the manifests lie now.</param>
internal sealed class WatchRun(Func<Look> look, Func<IReadOnlyList<ManifestFile>> manifests, TextReport report, Surroundings around)
{
    private const int Rarity = 20;

    private static readonly TimeSpan Shortest = TimeSpan.FromMilliseconds(100);

    // How long a file may be gone or empty before that is taken for what somebody wants.
    private static readonly TimeSpan Grace = TimeSpan.FromSeconds(1);

    private TimeSpan pause = Shortest;
    private IReadOnlyCollection<string> others = [];

    /// <summary>Goes on until the process is asked to end.</summary>
    /// <param name="first">Tells all that is found at the start.</param>
    /// <returns>What was found last; null when something could not be read then.</returns>
    public CheckOutcome? Run(Action<CheckOutcome> first)
    {
        using var stop = new StopSignal();
        var (shown, known) = Meet(Stand(manifests()));
        first(shown);
        // Like any other command: what is not there at the start is a slip, and not waited for.
        if (!shown.Unread.IsEmpty)
            return null;
        var isWhole = true;
        around.Note($"watching {TextReport.Count(known.Count, "file")}; Ctrl-C ends it");
        while (Next(known, stop) is { } now)
        {
            known = now;
            try
            {
                (var next, known) = Meet(now);
                isWhole = next.Unread.IsEmpty;
                foreach (var (file, reason) in next.Unread)
                    around.Note($"cannot read `{file}`: {reason}");
                // What cannot be read now has not been mended: the findings stand until it can.
                if (isWhole)
                    shown = Tell(shown, next);
            }
            catch (CannotWorkException refusal)
            {
                isWhole = false;
                around.Note(refusal.Advice is null ? refusal.Message : $"{refusal.Message}; {refusal.Advice}");
            }
        }
        return isWhole ? shown : null;
    }

    /// <summary>Looks, and says how the files stood before: one that is saved meanwhile differs from that.</summary>
    private (CheckOutcome Outcome, Stamps Known) Meet(Stamps before)
    {
        var one = look();
        others = one.Others;
        return (one.Outcome, Stand(one.Manifests, before));
    }

    private CheckOutcome Tell(CheckOutcome before, CheckOutcome now)
    {
        var difference = Difference.Between(before, now);
        foreach (var finding in difference.Came)
            report.Write(finding);
        foreach (var finding in difference.Went)
            report.WriteGone(finding);
        report.WriteChange(difference, now);
        around.Results.Flush();
        return now;
    }

    /// <summary>Waits until files differ from how they stood and keep still; null when the process is to end.</summary>
    private Stamps? Next(Stamps known, StopSignal stop)
    {
        var (last, lost) = (known, TimeSpan.Zero);
        while (!stop.WaitFor(pause))
        {
            var now = Stand();
            var isStill = now.Equals(last);
            last = now;
            if (!isStill || now.Equals(known))
            {
                lost = TimeSpan.Zero;
                continue;
            }
            if (!known.Lost(now) || (lost += pause) >= Grace)
                return now;
        }
        return null;
    }

    private Stamps Stand()
    {
        var begin = around.Clock.GetTimestamp();
        var stand = Stand(manifests());
        pause = around.Clock.GetElapsedTime(begin) * Rarity;
        pause = pause < Shortest ? Shortest : pause;
        return stand;
    }

    private Stamps Stand(IReadOnlyList<ManifestFile> files, Stamps? earlier = null)
    {
        var folders = files.Select(file => file.Folder).Distinct(StringComparer.Ordinal);
        return Stamps.Of(
            files.Select(file => file.Path).Concat(folders.Select(folder => ProjectFile.NearestTo(folder, around.Folder))).OfType<string>().Concat(others),
            earlier);
    }
}
