using System.Globalization;
using RadioLint.Cli.Files;
using RadioLint.Cli.Output;
using RadioLint.Cli.Readback;
using RadioLint.Cli.Terminal;
using RadioLint.Readback;
using RadioLint.Text;

namespace RadioLint.Cli.Start;

/// <summary>The nodes of some logs, each with its last whole listing.</summary>
internal sealed class DumpedNodes(Surroundings around)
{
    private readonly List<(string Name, Listing Listing)> nodes = [];

    /// <summary>In the order in which they are first heard of.</summary>
    public IReadOnlyList<(string Name, Listing Listing)> All => nodes;

    /// <summary>Reads a log; a listing that names nobody is called by the log.</summary>
    public void Read(string place)
    {
        var isInput = place == ManifestFile.StandardInput;
        var shown = isInput ? ManifestFile.UnnamedInput : ManifestFile.Slashes(place);
        var reader = new LogReader(shown);
        if (isInput)
            LogSource.Read(around.Input, reader.Add);
        else
            LogSource.ReadFile(place, around.FullPath(place), reader.Add);
        var log = reader.End();
        if (log.FirstGarbled is var (at, fault))
            around.Note(string.Create(CultureInfo.InvariantCulture, $"{shown}: {TextReport.Count(log.Garbled, "garbled report")} passed over, the first in line {at.From.Line}: {fault}"));
        if (log.IsCut)
            around.Note($"{shown}: the rest of the log is not read");
        var heard = log.Nodes.Where(node => node.Last is not null).ToList();
        if (heard.Count == 0)
            around.Note($"{shown}: no listing of registers is in it");
        foreach (var node in heard)
            Add(node.Name.Length > 0 ? node.Name : isInput ? "node" : Path.GetFileName(place).Split('.')[0], node.Last!);
    }

    // Later logs know better.
    private void Add(string said, Listing listing)
    {
        var name = Names.Mend(said);
        // A word that a compiler reserves is no name.
        name = Names.ReservedIn(name) is null ? name : Names.Mend(name + "-node");
        if (name != said)
            around.Note($"`{said}` is called `{name}`: names have lower-case letters, digits and inner hyphens");
        var known = nodes.FindIndex(node => node.Name == name);
        if (known < 0)
        {
            nodes.Add((name, listing));
            return;
        }
        around.Note($"`{name}` is told twice; the later listing counts");
        nodes[known] = (name, listing);
    }
}
