using System.Collections.Immutable;
using RadioLint.Facts;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Rules.Observed;

namespace RadioLint.Readback;

/// <summary>What a node's listing comes to.</summary>
public enum NodeVerdict
{
    /// <summary>Every register that is compared holds what the plan says.</summary>
    AsPlanned,

    /// <summary>The plan says nothing about any register that was read.</summary>
    NothingToCompare,

    /// <summary>Some do not.</summary>
    Differs,

    /// <summary>What was read says nothing of the registers.</summary>
    BusAtFault,

    /// <summary>The registers are those of power-on, or of a plan before.</summary>
    OtherMoment,

    /// <summary>As the earlier issue has it that the node says it runs.</summary>
    OtherIssue,

    /// <summary>The node has told no registers.</summary>
    NoListing,

    /// <summary>The manifest has no such node, or leaves something open that its registers need.</summary>
    NoPlan,
}

/// <summary>One node of a log, judged.</summary>
/// <param name="Name">The node's name; as the log has it where the manifest knows none.</param>
/// <param name="Judged">The listing that was judged; null without one.</param>
/// <param name="Compared">How many of its registers are compared.</param>
/// <param name="Different">How many of these differ.</param>
/// <param name="Order">In which order a listing of another program prints addresses, where one of the two fits the plan better.</param>
/// <param name="Live">Registers that are of the moment, in words.</param>
public sealed record JudgedNode(
    ObservedNode Seen, string Name, NodeVerdict Verdict, Listing? Judged, int Compared, int Different, AddressOrder? Order,
    ImmutableArray<(ListedRegister Register, string Says)> Live);

/// <summary>A log, judged.</summary>
public sealed record Judgement(ImmutableArray<JudgedNode> Nodes, ImmutableArray<Finding> Findings)
{
    /// <summary>Holds what a log says against a network.</summary>
    /// <param name="packets">What the packets of the same log come to; null when nobody looked at them.</param>
    /// <param name="issued">What the record of issues knows of a node, the latest first.</param>
    /// <param name="options">Severities and the day, as for a check.</param>
    public static Judgement Of(Network network, LogContent log, PacketWatch? packets, Func<string, ImmutableArray<IssuedImage>> issued, CheckOptions options)
    {
        var findings = new List<Finding>();
        var told = new List<(Node, BootReport, bool)>();
        var nodes = ImmutableArray.CreateBuilder<JudgedNode>();
        foreach (var seen in log.Nodes)
        {
            if (network.Nodes.FirstOrDefault(node => node.Name == seen.Name) is { } node)
                nodes.Add(new NodeJudge(network, node, seen, issued(node.Name), findings, told).Judge());
            else
                nodes.Add(new(seen, seen.Name, NodeVerdict.NoPlan, null, 0, 0, null, ImmutableArray<(ListedRegister, string)>.Empty));
        }
        if (MixedIssues.Of(told) is { } mixed)
            findings.Add(mixed);
        if (packets is not null)
            findings.AddRange(packets.End());
        return new(nodes.ToImmutable(), Verdict.Settle(findings, network.Rules, options, whole: null));
    }
}
