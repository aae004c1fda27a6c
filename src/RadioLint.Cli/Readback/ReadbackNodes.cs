using System.Collections.Immutable;
using RadioLint.Cli.Files;
using RadioLint.Cli.Terminal;
using RadioLint.Emit;
using RadioLint.Model;
using RadioLint.Readback;
using RadioLint.Text;

namespace RadioLint.Cli.Readback;

/// <summary>Which node of the manifest a part of a log belongs to, and what was issued for it.</summary>
internal static class ReadbackNodes
{
    /// <summary>The log's nodes that are asked for, each under its name in the manifest.</summary>
    /// <exception cref="CannotWorkException">There is nothing to judge, or a listing may be any node's.</exception>
    public static LogContent Choose(LogContent log, Network network, Node? only, Surroundings around)
    {
        if (log.Nodes.Count == 0)
        {
            throw new CannotWorkException(
                FormattableString.Invariant($"`{log.Name}` holds no report and no listing of registers in {log.Lines} lines{(log.Garbled > 0 ? $", {log.Garbled} of them garbled reports" : "")}"),
                "log what a node prints at its start, at the speed that its hooks state");
        }
        if (log.Unnamed is { } unnamed)
            return log.With([unnamed.Called((only ?? Only(network, unnamed)).Name)]);
        if (only is not null)
        {
            return log.Nodes.FirstOrDefault(node => node.Name == only.Name) is { } asked
                ? log.With([asked])
                : throw new CannotWorkException($"`{log.Name}` tells nothing of `{only.Name}`", $"it tells of {string.Join(", ", log.Nodes.Take(8).Select(node => $"`{node.Name}`"))}");
        }
        foreach (var stranger in log.Nodes.Where(node => network.Nodes.All(one => one.Name != node.Name)))
        {
            var nearest = Nearest.To(stranger.Name, network.Nodes.Select(one => one.Name));
            around.Note($"the manifest has no node `{stranger.Name}` (line {stranger.Place.From.Line}){(nearest is null ? "" : $"; the nearest is `{nearest}`")}");
        }
        return log.Nodes.Any(node => network.Nodes.Any(one => one.Name == node.Name))
            ? log
            : throw new CannotWorkException($"no node of `{log.Name}` is in the manifest");
    }

    /// <summary>What the record beside a manifest knows of a node, the latest first; nothing without a record.</summary>
    public static Func<string, ImmutableArray<IssuedImage>> Issues(ManifestFile manifest, Surroundings around)
    {
        var path = IssueFile.NameFor(manifest.Path!);
        if (!File.Exists(path))
            return _ => [];
        var (issue, fault) = ReadRecord(path);
        if (issue is null)
        {
            around.Note($"`{ManifestFile.Slashes(Path.GetRelativePath(around.Folder, path))}` is not used: {fault}");
            return _ => [];
        }
        return name => [.. new[] { issue.Now, issue.Before }.OfType<IssuedState>().SelectMany(state => state.Nodes).Where(node => node.Name == name).Select(node => new IssuedImage(node.Digest, node.Frames))];
    }

    /// <summary>The speed that programs of all nodes in question print at.</summary>
    /// <exception cref="CannotWorkException">They differ, or none is known.</exception>
    public static int PlannedSpeed(Network network, Node? only)
    {
        var speeds = network.Nodes.Where(node => !node.IsExternal && (only is null || node == only))
            .Select(node => node.Board?.Clock is { } clock ? SerialSpeed.Of(node.Host, clock.Value.Hertz)?.Baud : null).Distinct().ToList();
        return speeds is [{ } speed] ? speed : throw new CannotWorkException("the manifest does not say one speed for this port", "add `--baud NUMBER`, or `--node NAME`");
    }

    private static Node Only(Network network, ObservedNode unnamed)
    {
        var ours = network.Nodes.Where(node => !node.IsExternal).ToList();
        if (ours is [var single])
            return single;
        var nearest = unnamed.Last is { } listing ? Likeness.Nearest(network, listing) : null;
        throw new CannotWorkException("the listing does not say whose it is", nearest is null ? "add `--node NAME`" : $"add `--node NAME`; its registers come nearest to those of `{nearest.Name}`");
    }

    private static (Issue? Issue, string? Fault) ReadRecord(string path)
    {
        try
        {
            return IssueFile.Read(System.Text.Encoding.UTF8.GetString(BoundedReader.ReadFile(path)));
        }
        catch (Exception fault) when (Trouble.IsOfFiles(fault))
        {
            return (null, Trouble.Words(fault));
        }
    }
}
