using System.Globalization;
using RadioLint.Facts;
using RadioLint.Model;
using RadioLint.Radio;

namespace RadioLint.Analyzers.Generation;

/// <summary>A node as a static class: what its firmware is told too, so that a host can check or be it.</summary>
internal static class NodeWriter
{
    private const byte PrimRx = 0x01;

    /// <summary>What no node can be called.</summary>
    public static readonly string[] Members =
    [
        "Nodes", "Name", "Number", "Fingerprint", "Digest", "Pins", "Pipes", "Frames", "Image", "PowerDbm", "SpiClockHz", "SpiSelect",
        "Channel", "FrequencyMHz", "RateKbps", "AddressWidth", "CrcBytes", "IsAcknowledged", "IsDynamicLength", "PacketBytes", "RetryDelayUs", "RetryLimit",
        "WakesEverySeconds", "AwakeSeconds", "ConfigDown", "ConfigSend", "ConfigListen", "Equals", "ReferenceEquals", "ToString", "GetHashCode", "GetType",
    ];

    public static void Write(CodeWriter code, Network network, HostNames names)
    {
        code.Summary("The nodes and what each is planned to be.");
        using (code.Block("public static class Nodes"))
        {
            var numbers = NodeNumbers.Of(network);
            foreach (var node in network.Nodes)
                WriteNode(code, node, names, numbers.TryGetValue(node, out var number) ? number : null);
        }
    }

    private static void WriteNode(CodeWriter code, Node node, HostNames names, int? number)
    {
        code.Summary($"Node <c>{CSharp.Doc(node.Name)}</c>{CSharp.Doc(InWords(node))}.");
        using (code.Block($"public static class {names.Of(node)}"))
        {
            code.Constant("string", "Name", CSharp.Quoted(node.Name), "Name in the manifest and in report lines.");
            if (node.IsExternal)
                return;
            if (names.FactsOf(node) is { } facts)
                WriteFacts(code, facts, number);
            WriteSettings(code, node);
            PinWriter.Write(code, node);
        }
    }

    private static string InWords(Node node) => node switch
    {
        { IsExternal: true } => ", somebody else's",
        { Board: { } board, Part: { } part } => $": {(board.Chip.Length == 0 ? board.Name : board.Chip)}, radio {part.Name}",
        _ => "",
    };

    private static void WriteFacts(CodeWriter code, NodeFacts facts, int? number)
    {
        var (node, network, image) = (facts.Node, facts.Network, facts.Image);
        if (facts.TellsNumber && number is { } known)
            code.Constant("int", "Number", CSharp.Number(known), "Number in payload fields that name the sender.");
        code.Constant("uint", "Digest", $"0x{Fingerprint.OfNode(facts).ToDigest()}U", "Digest of register image, pins, links and payloads, as in the node's header.");
        if (!IsSame(node.Air, network.Air))
        {
            AirWriter.WriteFingerprint(code, node.Air, network);
            AirWriter.WriteSettings(code, node.Air);
        }
        if (facts.Plan.SendsAcknowledged && facts.Plan.Retry is { } retry)
        {
            code.Constant("int", "RetryDelayUs", CSharp.Number(retry.Delay.Nanoseconds / 1_000), "Time before a repetition in us.");
            code.Constant("int", "RetryLimit", CSharp.Number(retry.Limit), "Repetitions before the radio gives up.");
        }
        WriteStates(code, facts);
        WriteImage(code, node, image);
        WritePipes(code, facts.Plan);
    }

    private static void WriteStates(CodeWriter code, NodeFacts facts)
    {
        var (down, up) = (facts.Image.Frames[0].Data[0], facts.Image.Frames[facts.Image.Frames.Length - 1].Data[0]);
        code.Constant("byte", "ConfigDown", CSharp.Byte(down), "CONFIG in power down.");
        if (!facts.Outgoing.IsEmpty)
            code.Constant("byte", "ConfigSend", CSharp.Byte((byte)(up & ~PrimRx)), "CONFIG powered up as a transmitter.");
        if (facts.Plan.Listens)
            code.Constant("byte", "ConfigListen", CSharp.Byte((byte)(up | PrimRx)), "CONFIG powered up as a receiver.");
    }

    private static void WriteImage(CodeWriter code, Node node, RegisterImage image)
    {
        code.Summary("Register image: whole SPI frames in write order, a count before each, 0 at the end. Power down first, power up last.");
        code.Line("public static global::System.ReadOnlySpan<byte> Frames => new byte[]");
        code.Line("{");
        foreach (var frame in image.Frames)
            code.Line($"    {CSharp.Number(frame.Bytes.Length)}, {CSharp.Bytes(frame.Bytes)}, // {CSharp.InComment($"{frame.Name}: {frame.Meaning}")}");
        code.Line("    0,");
        code.Line("};");
        code.Summary("The register image with what it takes to write it and to compare it.");
        var (mask, unlock) = (CSharp.Byte((byte)~node.Part!.FreeBitsOf("RF_SETUP")), CSharp.Flag(image.NeedsUnlock));
        code.Line($"public static global::RadioLint.RegisterImage Image => new global::RadioLint.RegisterImage(Frames, rfSetupMask: {mask}, needsUnlock: {unlock});");
    }

    private static void WritePipes(CodeWriter code, NodePlan plan)
    {
        if (plan.Pipes.IsEmpty)
            return;
        code.Summary("The pipes that it listens on.");
        using (code.Block("public static class Pipes"))
        {
            foreach (var pipe in plan.Pipes)
                WritePipe(code, pipe);
        }
    }

    private static void WritePipe(CodeWriter code, OpenPipe pipe)
    {
        code.Summary($"Pipe {CSharp.Number(pipe.Number)}.");
        using (code.Block($"public static class Pipe{CSharp.Number(pipe.Number)}"))
        {
            if (pipe.Address is { } address)
                LinkWriter.WriteAddress(code, address);
            code.Constant("bool", "IsAcknowledged", CSharp.Flag(pipe.Acknowledges), "Whether it acknowledges.");
            if (pipe.FixedLength is { } length)
                code.Constant("int", "PacketBytes", CSharp.Number(length), "Length of its packets in bytes.");
        }
    }

    private static void WriteSettings(CodeWriter code, Node node)
    {
        if (node.Power is { } power)
            code.Constant("double", "PowerDbm", Decimal(power.Value.Centi / 100m), "Transmit power at the chip in dBm.");
        if (node.Wiring.Clock is { } clock)
            code.Constant("int", "SpiClockHz", CSharp.Number(clock.Hertz), "SPI clock in Hz; mode 0, most significant bit first.");
        if (node.Spi?.Select is { } select)
            code.Constant("int", "SpiSelect", CSharp.Number(select.Value), "Select line of the SPI unit.");
        if (node.Sleep?.Wakes?.Value.Period is { } period)
            code.Constant("double", "WakesEverySeconds", Seconds(period.Nanoseconds), "How often it wakes, in s.");
        if (node.Sleep?.Awake?.Value is { } awake)
            code.Constant("double", "AwakeSeconds", Seconds(awake.Nanoseconds), "How long it stays awake, in s.");
    }

    /// <summary>Nanoseconds as a literal in seconds.</summary>
    public static string Seconds(long nanoseconds) => Decimal(nanoseconds / 1_000_000_000m);

    private static string Decimal(decimal value) => value.ToString("0.0#########", CultureInfo.InvariantCulture);

    private static bool IsSame(Air a, Air b) =>
        (a.ChosenChannel, a.ChosenRate, a.AddressWidth?.Value, a.Crc?.Value, a.Acknowledge?.Value, a.PayloadLength?.Value)
        == (b.ChosenChannel, b.ChosenRate, b.AddressWidth?.Value, b.Crc?.Value, b.Acknowledge?.Value, b.PayloadLength?.Value);
}
