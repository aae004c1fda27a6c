using RadioLint.Radio;

namespace RadioLint.Rules.Links;

/// <summary>The check sum that may be offered to a node that asks for none.</summary>
internal static class CrcAtPeers
{
    /// <summary>What the other ends of its links have, as the manifest writes it, because both must have the same; else the safer `2 bytes`.</summary>
    public static string Of(NodePlan plan) => plan.Sends.Select(hop => hop.Receiver).Concat(plan.Receives.Select(hop => hop.Sender))
        .Select(peer => peer.Air.Crc?.Value).FirstOrDefault(length => length > 0) == 1 ? "1 byte" : "2 bytes";
}
