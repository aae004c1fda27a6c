using System.Collections.Immutable;
using System.CommandLine;
using RadioLint.Cli.Checking;
using RadioLint.Cli.Files;
using RadioLint.Cli.Output;
using RadioLint.Cli.Readback;
using RadioLint.Cli.Terminal;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Readback;

namespace RadioLint.Cli.Commands;

/// <summary>`readback`: what the radios really hold, against the plan.</summary>
internal sealed class ReadbackCommand
{
    private const int LongestSeconds = 3600;

    private readonly Argument<string> plan = new("manifest") { HelpName = "FILE", Description = "the manifest", Arity = ArgumentArity.ExactlyOne };

    private readonly Argument<string> printed = new("log")
    {
        HelpName = "LOG",
        Description = "what nodes printed: a file, or - for standard input; none with --port",
        Arity = ArgumentArity.ZeroOrOne,
    };

    private readonly Option<string> port = new("--port") { HelpName = "DEVICE", Description = "listen to a serial port instead, until the registers have come" };
    private readonly Option<string> baud = new("--baud") { HelpName = "NUMBER", Description = "its speed; the one that the manifest plans when that is clear" };
    private readonly Option<string> longest = new("--for") { HelpName = "SECONDS", Description = "how long a port is listened to at most; 60 unless said, and never past 10 s of silence" };
    private readonly Option<string> node = new("--node") { HelpName = "NAME", Description = "only this node; needed for a listing that does not say whose it is" };
    private readonly Choice<bool> form = new("--format", "text for people, json for programs (docs/readback.md)", ("text", false), ("json", true));
    private readonly Choice<Severity?> failOn = new(
        "--fail-on", "the weakest finding that makes the exit status 1",
        ("error", Severity.Error), ("warning", Severity.Warning), ("info", Severity.Info), ("none", null));
    private readonly CheckTermsOptions terms = new();

    public static Verb Make()
    {
        var verb = new ReadbackCommand();
        var command = new Command("readback", "compares the registers that nodes print with the plan")
        {
            verb.plan, verb.printed, verb.port, verb.baud, verb.longest, verb.node, verb.form.Option, verb.failOn.Option,
        };
        verb.terms.AddTo(command);
        return new(command, Examples, Remarks, verb.Run);
    }

    private ExitStatus Run(ParseResult parsed, Surroundings around)
    {
        var (isJson, level, device, log) = (form.Read(parsed), failOn.Read(parsed), parsed.Only(port), parsed.Only(printed));
        if ((device is null) == (log is null))
            throw new CannotWorkException(device is null ? "`radiolint readback` needs LOG, or `--port DEVICE`" : "`--port` takes the place of the log", "see `radiolint readback --help`");
        if (device is null && (parsed.Has(baud) || parsed.Has(longest)))
            throw new CannotWorkException("`--baud` and `--for` go with `--port`");
        var asked = terms.Read(parsed, around);
        var (network, manifest, trouble) = Manifest(parsed.Only(plan)!, asked, around);
        if (network is null)
            return trouble;
        var only = parsed.Only(node) is { } name ? NodeOf(network, name) : null;
        var packets = new PacketWatch(network);
        var content = device is null ? ReadLog(log!, packets, around) : Listen(device, parsed, network, only, packets, around);
        content = ReadbackNodes.Choose(content, network, only, around);
        var outcome = new ReadbackOutcome(content, Judgement.Of(network, content, packets, ReadbackNodes.Issues(manifest!, around), new() { Severities = asked.Severities, Today = asked.Today }));
        if (isJson)
            ReadbackJson.Write(around.Results.BaseStream, outcome);
        else
            ReadbackText.Write(around.Results, outcome, new(around.HasColour), around.Width);
        return level is { } least && outcome.Findings.Any(finding => finding.Severity >= least) ? ExitStatus.Failed : ExitStatus.Passed;
    }

    // A plan with errors can still be compared with; what cannot be read cannot.
    private static (Network? Network, ManifestFile? File, ExitStatus Trouble) Manifest(string place, CheckTerms asked, Surroundings around)
    {
        if (place == ManifestFile.StandardInput || Directory.Exists(around.FullPath(place)))
            throw new CannotWorkException($"`radiolint readback` takes one manifest, and `{place}` is none", "name a file; standard input is for the log");
        var notFound = new List<Unread>();
        var file = ManifestFinder.Find([place], null, around, notFound).SingleOrDefault();
        var run = new CheckRun(asked, around);
        var network = file is null ? null : run.Check(file)?.Result.Network;
        var outcome = run.Outcome(notFound);
        if (CheckCommand.NoteUnread(outcome, around))
            return (null, file, ExitStatus.NotDone);
        var errors = outcome.Findings.Where(finding => finding.Severity is Severity.Error).ToList();
        if (network is null)
        {
            var report = new TextReport(around.Results, new(around.HasColour), around.Width);
            errors.ForEach(report.Write);
        }
        if (errors.Count > 0)
            around.Note($"the manifest has {TextReport.Count(errors.Count, "error")}: `radiolint check {file!.Name}`");
        return (network, file, ExitStatus.Failed);
    }

    private static Node NodeOf(Network network, string name)
    {
        if (network.Nodes.FirstOrDefault(one => one.Name == name) is { } found)
            return found;
        var nearest = Text.Nearest.To(name, network.Nodes.Select(one => one.Name));
        throw new CannotWorkException($"the manifest has no node `{name}`", nearest is null ? null : $"the nearest is `{nearest}`");
    }

    private static LogContent ReadLog(string place, PacketWatch packets, Surroundings around)
    {
        var reader = new LogReader(place == ManifestFile.StandardInput ? ManifestFile.UnnamedInput : ManifestFile.Slashes(place), packets.Add);
        if (place == ManifestFile.StandardInput)
            LogSource.Read(around.Input, reader.Add);
        else
            LogSource.ReadFile(place, around.FullPath(place), reader.Add);
        return reader.End();
    }

    private LogContent Listen(string device, ParseResult parsed, Network network, Node? only, PacketWatch packets, Surroundings around)
    {
        var speed = parsed.Number(baud, SerialLine.FastestBaud) ?? ReadbackNodes.PlannedSpeed(network, only);
        var most = TimeSpan.FromSeconds(parsed.Number(longest, LongestSeconds) ?? 60);
        var reader = new LogReader(ManifestFile.Slashes(device), packets.Add);
        LiveEnd end;
        using (var line = SerialLine.Open(device, OperatingSystem.IsWindows() ? device : around.FullPath(device), speed))
            end = new LiveListening(line, reader, only?.Name, around).Run(most);
        var log = reader.End();
        if (end.Note is { } why && log.Nodes.All(one => one.ListingCount == 0))
            throw new CannotWorkException(why);
        if (end is { IsOfPort: true, Note: { } note })
            around.Note(note);
        return log;
    }

    private static readonly ImmutableArray<Example> Examples = ImmutableArray.Create(
        new Example("radiolint readback hives.radio.yaml bench.log", "what a terminal has saved of the bring-up programs' reports"),
        new Example("radiolint readback hives.radio.yaml --port /dev/ttyUSB0 --baud 38400", "live: reset the board, and read the verdict"),
        new Example("radiolint readback hives.radio.yaml - --node hive-1 < registers.txt", "a listing of any other program, which does not say whose it is"),
        new Example("radiolint readback hives.radio.yaml bench.log --format json", "for a program"));

    private static readonly ImmutableArray<string> Remarks = ImmutableArray.Create(
        "Reads report lines (docs/firmware.md) and plain listings: labelled lines, pairs of address and value, bytes in the order of addresses, C arrays. Registers may be missing, and addresses may be printed from either end.",
        "Registers whose value is of the moment are told in words and never compared; those that the plan leaves free are left out.",
        HelpPage.ExitStatuses);
}
