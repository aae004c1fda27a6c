using System.Collections.Immutable;
using RadioLint.Facts;
using Scriban.Runtime;

namespace RadioLint.Emit;

/// <summary>Whom a gateway can send to, as a C string, with the function and the length of what it sends.</summary>
public sealed record Destination(string Name, string Function, string Length, bool IsAnswer)
{
    public ScriptObject ToScript() => new() { ["name"] = Name, ["function"] = Function, ["length"] = Length, ["is_answer"] = IsAnswer };
}

/// <summary>The programs of one node: what their templates know beside the node's header.</summary>
public sealed record NodePrograms(NodeHeader Header, AvrBoard? Avr, string? Refusal)
{
    private const string HooksTemplate = "hooks_avr.h.sbn";

    // Nothing is heard for certain at the least time; a little more costs a survey little.
    private const int DwellMargin = 30;

    private static readonly ImmutableArray<string> Sender = ["bringup", "try", "survey"];

    public required ImmutableArray<Destination> Destinations { get; init; }

    /// <summary>The register that tells that something is on air, and when it does: us after listening begins.</summary>
    public required (string Name, int ValidMicroseconds) Detector { get; init; }

    public static NodePrograms Of(NodeFacts facts, NodeHeader header)
    {
        var (board, refusal) = AvrBoard.Of(facts.Node);
        var timing = facts.Node.Part!.Timing;
        return new(header, board, refusal)
        {
            Destinations =
            [
                .. header.Sends.Select(sending => new Destination(C.Quoted(sending.Peer), sending.Name, sending.Length, false)),
                .. header.Answers.Select(answering => new Destination(C.Quoted(answering.Peer), answering.Name, answering.Length, true)),
            ],
            Detector = (facts.Node.Part.Detector.Name, (int)(timing.Settle.Value.Microseconds + timing.Detector.Value.Microseconds)),
        };
    }

    /// <summary>File names and templates of what is written for the node, its header aside.</summary>
    public IEnumerable<(string File, string Template)> Files()
    {
        yield return ($"{Header.Ident}_bringup.c", "bringup.c.sbn");
        yield return ($"{Header.Ident}_survey.c", "survey.c.sbn");
        if (Header.Listens)
            yield return ($"{Header.Ident}_gateway.c", "gateway.c.sbn");
        if (Avr is not null)
            yield return ($"{Header.Ident}_hooks_avr.h", HooksTemplate);
    }

    /// <summary>What templates of programs know: these names and those of the node's header.</summary>
    public ScriptObject ToScript()
    {
        var model = Header.ToScript();
        foreach (var (name, value) in OwnScript())
            model[name] = value;
        return model;
    }

    /// <summary>The names that a program's templates have beside those of the node's header.</summary>
    public ScriptObject OwnScript() => new()
    {
        ["avr"] = Avr?.ToScript(),
        ["destinations"] = Script.List(Destinations, destination => destination.ToScript()),
        ["detector"] = C.InComment(Detector.Name),
        ["detector_valid_us"] = Detector.ValidMicroseconds,
        ["dwell_us"] = (Detector.ValidMicroseconds + DwellMargin + 9) / 10 * 10,
        ["rounds"] = Survey.SweepReports.Rounds,
    };

    /// <summary>The node as the Makefile knows it.</summary>
    public ScriptObject ToMakeScript() => new()
    {
        // Names of the manifest have hyphens only; nothing else reaches a target.
        ["target"] = Header.Ident.Replace('_', '-'),
        ["ident"] = Header.Ident,
        ["node"] = C.InComment(Header.Node),
        ["board"] = C.InComment(Header.Board),
        ["mcu"] = Avr?.Mcu,
        ["refusal"] = Refusal,
        ["programs"] = Script.List(Header.Listens ? Sender.Add("gateway") : Sender, program => program),
    };
}
