using RadioLint.Cli.Files;
using RadioLint.Cli.Readback;
using RadioLint.Cli.Terminal;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Survey;
using RadioLint.Units;

namespace RadioLint.Cli.Survey;

/// <summary>One log to read.</summary>
/// <param name="Path">Its full path; null for standard input.</param>
/// <param name="Entry">The entry of a manifest that names it.</param>
internal sealed record SurveySource(string Name, string? Path, Stated<SurveyFile>? Entry);

/// <summary>Which logs are meant, and reading them.</summary>
internal static class SurveySources
{
    /// <summary>The logs of the command line; without any, those that the manifests name. Each once.</summary>
    /// <exception cref="CannotWorkException">There is none, or one lies where a manifest may not point.</exception>
    public static IReadOnlyList<SurveySource> Find(IReadOnlyList<string> given, IReadOnlyList<(ManifestFile File, Network Network)> manifests, Surroundings around)
    {
        var named = manifests.SelectMany(one => one.Network.Survey.Select(entry => Named(one.File, entry))).Where(source => source is not null).Select(source => source!).ToList();
        if (given.Count > 0)
            return [.. given.Select(log => Given(log, named, around)).DistinctBy(source => source.Path)];
        foreach (var source in named)
        {
            if (source.Path is null)
            {
                throw new CannotWorkException(
                    $"`{source.Entry!.Value.File!.Value}`, which {source.Entry.Place} names, lies outside of the manifest's folder", "name it on the command line if it is to be read");
            }
        }
        return named.Count > 0
            ? [.. named.DistinctBy(source => source.Path)]
            : throw new CannotWorkException($"no log is given, and `{manifests[0].File.Name}` names none under `survey`", "add LOG, or `--port DEVICE`");
    }

    /// <summary>Reads a log into what was heard so far.</summary>
    /// <exception cref="CannotWorkException">It cannot be read.</exception>
    public static HeardLog Read(SurveySource source, SurveyTerms terms, SurveyGathering gathering, Surroundings around)
    {
        var entry = source.Entry?.Value;
        if (source is { Path: { } path, Entry: { } named } && !File.Exists(path) && !Directory.Exists(path))
            throw new CannotWorkException($"there is no `{source.Name}`, which {named.Place} names", "name another log on the command line, or survey anew");
        var reader = gathering.Open(source.Name, terms with
        {
            Place = terms.Place ?? entry?.Place?.Value, Started = terms.Started ?? entry?.Taken?.Value, Dwell = entry?.Dwell?.Value, Lasted = entry?.Lasted?.Value,
        });
        if (source.Path is null)
            LogSource.Read(around.Input, line => reader.Add(line), SurveyLimits.LongestLine);
        else
            LogSource.ReadFile(source.Name, source.Path, line => reader.Add(line), SurveyLimits.LongestLine);
        return new(reader.End(), source.Entry);
    }

    /// <summary>The threshold of the networks' own detectors, for levels that nobody gives another one for.</summary>
    public static PowerLevel? ThresholdOf(IEnumerable<Network> networks) =>
        networks.SelectMany(network => network.DistinctNodes).Select(node => node.Part?.Detector.Level.Value).FirstOrDefault(level => level is not null);

    private static SurveySource Given(string log, List<SurveySource> named, Surroundings around)
    {
        if (log == ManifestFile.StandardInput)
            return new(ManifestFile.UnnamedInput, null, null);
        var path = log.Contains('\0') ? throw new CannotWorkException("the log's name is no path") : around.FullPath(log);
        return new(ManifestFile.Slashes(log), path, named.Find(source => source.Path is { } known && (RealPath.Of(known) ?? known) == (RealPath.Of(path) ?? path))?.Entry);
    }

    // Below the manifest's folder, as for what it includes. A path that leaves it is null.
    private static SurveySource? Named(ManifestFile manifest, Stated<SurveyFile> entry)
    {
        if (entry.Value.File?.Value is not { Length: > 0 } file)
            return null;
        var name = manifest.Name[..(manifest.Name.LastIndexOf('/') + 1)] + file;
        if (file.Contains('\0'))
            return new(name, null, entry);
        var path = Path.GetFullPath(file, manifest.Folder);
        var isInside = RealPath.Of(manifest.Folder) is { } folder && RealPath.Of(path) is { } real && RealPath.IsWithin(real, folder);
        return new(name, isInside ? path : null, entry);
    }
}
