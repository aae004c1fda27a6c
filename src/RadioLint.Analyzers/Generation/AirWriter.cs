using RadioLint.Facts;
using RadioLint.Model;

namespace RadioLint.Analyzers.Generation;

/// <summary>What every node must agree on, as far as it is chosen.</summary>
internal static class AirWriter
{
    public static void Write(CodeWriter code, Network network)
    {
        code.Summary("What every node must agree on.");
        using (code.Block("public static class Air"))
        {
            WriteFingerprint(code, network.Air, network);
            WriteSettings(code, network.Air);
            WriteRetry(code, network.Air);
        }
    }

    /// <summary>Settings of the network, or of a node that states its own.</summary>
    public static void WriteSettings(CodeWriter code, Air air)
    {
        if (air.ChosenChannel is { } channel)
        {
            code.Constant("int", "Channel", CSharp.Number(channel), "Channel number, as in RF_CH.");
            code.Constant("int", "FrequencyMHz", CSharp.Number(2400 + channel), "Carrier frequency in MHz.");
        }
        if (air.ChosenRate is { } rate)
            code.Constant("int", "RateKbps", CSharp.Number(1_000_000 / rate.BitTime().Nanoseconds), "Data rate in kbps.");
        if (air.AddressWidth?.Value is { } width)
            code.Constant("int", "AddressWidth", CSharp.Number(width), "Length of an address in bytes.");
        if (air.Crc?.Value is { } crc)
            code.Constant("int", "CrcBytes", CSharp.Number(crc), "Length of the CRC in bytes; 0 for none.");
        code.Constant("bool", "IsAcknowledged", CSharp.Flag(air.Acknowledge?.Value ?? true), "Whether packets are acknowledged unless a link says otherwise.");
        if (air.PayloadLength?.Value is not { } length)
            return;
        code.Constant("bool", "IsDynamicLength", CSharp.Flag(length.Kind is LengthKind.Dynamic), "Whether each packet says its own length.");
        if (length.Kind is LengthKind.Fixed)
            code.Constant("int", "PacketBytes", CSharp.Number(length.Bytes), "Length of every packet in bytes; what a payload leaves over is sent as 0.");
    }

    public static void WriteFingerprint(CodeWriter code, Air air, Network network) => code.Constant(
        "uint", "Fingerprint", $"0x{Fingerprint.OfNetwork(air, network.Payloads).ToDigest()}U", "Fingerprint of air settings and payload layouts: equal on all that must agree.");

    private static void WriteRetry(CodeWriter code, Air air)
    {
        if (air.Retry.Delay?.Value is { IsOpen: false, Delays: [var delay] })
            code.Constant("int", "RetryDelayUs", CSharp.Number(delay.Value.Nanoseconds / 1_000), "Time before a repetition in us, on every sender that states no other.");
        if (air.Retry.Limit?.Value is { } limit)
            code.Constant("int", "RetryLimit", CSharp.Number(limit), "Repetitions before a sender gives up.");
    }
}
