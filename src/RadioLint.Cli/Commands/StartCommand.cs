using System.Collections.Immutable;
using System.CommandLine;
using System.Text;
using RadioLint.Binding;
using RadioLint.Cli.Files;
using RadioLint.Cli.Output;
using RadioLint.Cli.Start;
using RadioLint.Cli.Terminal;
using RadioLint.Spectrum;
using RadioLint.Starting;
using RadioLint.Text;

namespace RadioLint.Cli.Commands;

/// <summary>`start`: a manifest for nodes that run already.</summary>
internal sealed class StartCommand
{
    private const string Unnamed = "from-dump";

    private readonly Option<string[]> dumps = new("--from-dump")
    {
        HelpName = "LOG...",
        Description = "register listings of nodes that run: files, or - for standard input; one that names nobody is called by its file",
        AllowMultipleArgumentsPerToken = true,
        Arity = ArgumentArity.OneOrMore,
    };

    private readonly Option<string> network = new("--network") { HelpName = "NAME", Description = $"the network's name; {Unnamed} unless said" };
    private readonly Option<string> region = new("--region") { HelpName = "CC", Description = "the country whose band rules hold, such as GB" };
    private readonly Option<string> board = new("--board") { HelpName = "NAME", Description = "the board of the nodes: registers do not tell it" };
    private readonly Option<string> output = new("--out") { HelpName = "FILE", Description = "write there instead of to standard output" };
    private readonly Option<bool> force = new("--force") { Description = "with --out: replace a file that is there" };

    public static Verb Make()
    {
        var verb = new StartCommand();
        var command = new Command("start", "makes a manifest from the registers of nodes that run already") { verb.dumps, verb.network, verb.region, verb.board, verb.output, verb.force };
        return new(command, Examples, Remarks, verb.Run);
    }

    private ExitStatus Run(ParseResult parsed, Surroundings around)
    {
        if (!parsed.Has(dumps))
            throw new CannotWorkException("`radiolint start` makes a manifest from register listings, and none is given", "add `--from-dump LOG...`; for a blank sheet begin with the smallest manifest of docs/manifest.md");
        var terms = Terms(parsed);
        var file = parsed.Only(output);
        if (file is null && parsed.Has(force))
            throw new CannotWorkException("`--force` goes with `--out`");
        if (file is not null && Path.Exists(around.FullPath(file)) && !parsed.Has(force))
            throw new CannotWorkException($"`{ManifestFile.Slashes(file)}` is there already", "name another file, or add `--force` to replace it");
        var nodes = new DumpedNodes(around);
        foreach (var log in parsed.All(dumps))
            nodes.Read(log);
        if (nodes.All.Count == 0 || StartFromDump.Of(nodes.All, terms) is not { } started)
        {
            around.Note("no listing shows the registers of a radio that answers, so there is nothing to start from; docs/readback.md says which forms are read");
            return ExitStatus.Failed;
        }
        if (file is null)
            around.Results.Write(started.Text);
        else
            Write(file, started.Text, around);
        foreach (var remark in started.Remarks)
            around.Note(remark);
        around.Note($"{TextReport.Count(started.Nodes, "node")} written{(file is null ? "" : $" to `{ManifestFile.Slashes(file)}`")}; add what the comments ask for, then `radiolint fill` and `radiolint check`");
        return ExitStatus.Passed;
    }

    private StartTerms Terms(ParseResult parsed)
    {
        var (name, country, profile) = (parsed.Only(network) ?? Unnamed, parsed.Only(region), parsed.Only(board));
        if (!Names.IsWellFormed(name))
            throw new CannotWorkException($"`--network` takes a name of lower-case letters, digits and inner hyphens, not `{name}`", $"write `{Names.Mend(name)}`");
        if (country is not null && !Countries.IsKnown(country))
            throw new CannotWorkException($"`--region` takes an ISO 3166 country code such as GB, not `{country}`");
        if (profile is null)
            throw new CannotWorkException("`radiolint start --from-dump` needs `--board NAME`: registers do not tell the microcontroller", $"take one of {string.Join(", ", ShippedBoards.Names)}, and change single nodes afterwards");
        if (ShippedBoards.Find(profile) is null)
        {
            var nearest = Nearest.To(profile, ShippedBoards.Names);
            throw new CannotWorkException($"there is no board `{profile}`", nearest is null ? $"take one of {string.Join(", ", ShippedBoards.Names)}" : $"the nearest is `{nearest}`");
        }
        return new(name, country, profile);
    }

    private static void Write(string file, string text, Surroundings around)
    {
        try
        {
            WholeFile.Replace(around.FullPath(file), Encoding.UTF8.GetBytes(text));
        }
        catch (Exception fault) when (Trouble.IsOfFiles(fault))
        {
            throw new CannotWorkException($"cannot write `{ManifestFile.Slashes(file)}`: {Trouble.Words(fault)}");
        }
    }

    private static readonly ImmutableArray<Example> Examples = ImmutableArray.Create(
        new Example("radiolint start --from-dump bench.log --board esp32 --region GB", "what the reports of several nodes show, as a manifest on standard output"),
        new Example("radiolint start --from-dump hall.txt mast.txt --board esp32 --out a.radio.yaml", "one listing a file, each node called by its file"),
        new Example("radiolint start --from-dump - --board rp2040 < registers.txt", "one listing from standard input"));

    private static readonly ImmutableArray<string> Remarks = ImmutableArray.Create(
        "Takes the report lines and plain listings that `readback` takes (docs/readback.md). What registers do not tell (pins, supply, antenna, periods, fields) is left out, and comments say so (docs/start.md).",
        "Exit status: 0 a manifest is made, 1 no listing shows a radio, 2 the work could not be done, 3 a defect of radiolint.");
}
