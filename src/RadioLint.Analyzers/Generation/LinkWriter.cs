using RadioLint.Model;

namespace RadioLint.Analyzers.Generation;

/// <summary>Each sender with each receiver of each link.</summary>
internal static class LinkWriter
{
    /// <summary>What no link can be called.</summary>
    public static readonly string[] Members =
    [
        "Links", "From", "To", "Payload", "Address", "AddressBytes", "Pipe", "IsAcknowledged", "RidesInAcknowledgement", "EverySeconds", "LongestUs",
        "Equals", "ReferenceEquals", "ToString", "GetHashCode", "GetType",
    ];

    public static void Write(CodeWriter code, Network network, HostNames names, string networkClass)
    {
        code.Summary("The links: who sends what to whom, and where.");
        using (code.Block("public static class Links"))
        {
            // Two links that differ only in when they send are one to the radio.
            var seen = new HashSet<(Node, Node, string, string?, int?)>();
            foreach (var hop in network.Hops)
            {
                if (hop.Link.Payload is { } payload && seen.Add((hop.Sender, hop.Receiver, payload.Name, hop.Address?.ToString(), hop.Pipe)))
                    Write(code, hop, names, networkClass);
            }
        }
    }

    /// <summary>An address in both spellings.</summary>
    public static void WriteAddress(CodeWriter code, Address address)
    {
        code.Constant("string", "Address", CSharp.Quoted($"{address}"), "Address as written, first byte on air first.");
        code.Summary("Address bytes in SPI order, as the registers take them.");
        code.Line($"public static global::System.ReadOnlySpan<byte> AddressBytes => new byte[] {{ {CSharp.Bytes(address.RegisterBytes)} }};");
    }

    private static void Write(CodeWriter code, Hop hop, HostNames names, string networkClass)
    {
        var payload = hop.Link.Payload!;
        var known = names.Payloads.FirstOrDefault(one => one.Payload == payload);
        var what = known is null ? $"<c>{CSharp.Doc(payload.Name)}</c>" : $"<see cref=\"{networkClass}.Payloads.{known.Name}\"/>";
        var how = hop.Link.RidesInAcknowledgement ? ", rides back in the acknowledgement" : hop.Link.IsBroadcast ? ", to all who listen there" : "";
        code.Summary($"<c>{CSharp.Doc(hop.Sender.Name)}</c> to <c>{CSharp.Doc(hop.Receiver.Name)}</c>: {what}{how}.");
        using (code.Block($"public static class {names.TakeLink(hop)}"))
        {
            code.Constant("string", "From", CSharp.Quoted(hop.Sender.Name), "The sender.");
            code.Constant("string", "To", CSharp.Quoted(hop.Receiver.Name), "The receiver.");
            code.Constant("string", "Payload", CSharp.Quoted(payload.Name), "The payload's name in the manifest.");
            if (hop.Link.RidesInAcknowledgement)
                WriteRider(code, hop);
            else
                WriteOwn(code, hop, names);
        }
    }

    private static void WriteRider(CodeWriter code, Hop hop)
    {
        code.Constant("bool", "RidesInAcknowledgement", "true", "It has no packet of its own.");
        if (hop.Carrier?.Pipe is { } pipe)
            code.Constant("int", "Pipe", CSharp.Number(pipe), "The sender's pipe whose acknowledgement carries it; it arrives on pipe 0.");
    }

    private static void WriteOwn(CodeWriter code, Hop hop, HostNames names)
    {
        if (hop.Address is { } address)
            WriteAddress(code, address);
        if (hop.Pipe is { } pipe)
            code.Constant("int", "Pipe", CSharp.Number(pipe), "The receiver's pipe.");
        code.Constant("bool", "IsAcknowledged", CSharp.Flag(hop.IsAcknowledged), "Whether the sender asks for an acknowledgement.");
        if (hop.Link.Every is { } every)
            code.Constant("double", "EverySeconds", NodeWriter.Seconds(every.Value.Nanoseconds), "Period in s.");
        if (names.FactsOf(hop.Sender) is { } facts
            && facts.Outgoing.FirstOrDefault(link => link.Payload == hop.Link.Payload && Equals(link.Hop.Address, hop.Address)) is { } fact && facts.LongestMicroseconds(fact) is { } longest)
        {
            code.Constant("long", "LongestUs", CSharp.Number(longest) + "L", "Time in us until the radio is done or gives up, at most.");
        }
    }
}
