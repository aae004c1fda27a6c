using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Radio;

namespace RadioLint.Facts;

/// <summary>Short names for what firmware was made from: equal exactly when nothing that matters differs.</summary>
public static class Fingerprint
{
    /// <summary>What all nodes of a network must agree on: what is on the air, and every payload's layout by name.</summary>
    public static Canonical OfNetwork(Air air, IEnumerable<Payload> payloads)
    {
        var text = new Canonical("fingerprint");
        AddAir(text, air);
        foreach (var payload in payloads)
            AddLayout(text, $"payload.{payload.Name}.", payload);
        return text;
    }

    /// <summary>One payload's layout.</summary>
    public static Canonical OfLayout(Payload payload)
    {
        var text = new Canonical("layout");
        AddLayout(text, "", payload);
        return text;
    }

    /// <summary>The constant of a payload's field in the role `version`; null without one.</summary>
    public static string? VersionOf(Payload payload) =>
        payload.Fields.FirstOrDefault(field => field is { Role: "version", Constant: not null })?.Constant is { } version ? FormattableString.Invariant($"{version}") : null;

    /// <summary>What one node's radio and program must hold; of other nodes no more than names and addresses.</summary>
    public static Canonical OfNode(NodeFacts facts)
    {
        var text = new Canonical("digest");
        for (var i = 0; i < facts.Image.Frames.Length; i++)
            text.Add(FormattableString.Invariant($"frame.{i:D2}"), facts.Image.Frames[i].Bytes);
        foreach (var line in facts.Node.Wiring.Lines())
            text.Add($"pin.{line.Signal}", line.Tie switch
            {
                PinTie.High => "tied high",
                PinTie.Low => "tied low",
                PinTie.FromSck => "from sck",
                _ => line.Pin?.Port ?? line.Written ?? "",
            });
        foreach (var link in facts.Outgoing)
        {
            text.Add($"link.to.{link.Peer}.{link.Payload.Name}.acknowledge", link.Hop.IsAcknowledged);
            text.Add($"link.to.{link.Peer}.{link.Payload.Name}.address", link.Hop.Address?.AirBytes ?? ImmutableArray<byte>.Empty);
        }
        foreach (var link in facts.Incoming)
        {
            text.Add($"link.from.{link.Peer}.{link.Payload.Name}.address", link.Hop.Address?.AirBytes ?? ImmutableArray<byte>.Empty);
            text.Add($"link.from.{link.Peer}.{link.Payload.Name}.pipe", link.Hop.Pipe ?? -1);
        }
        foreach (var link in facts.Returned)
            text.Add($"link.answer.{link.Peer}.{link.Payload.Name}.pipe", link.Hop.Carrier?.Pipe ?? -1);
        foreach (var link in facts.Answers)
            text.Add($"link.answered.{link.Peer}.{link.Payload.Name}.pipe", 0);
        foreach (var (payload, length) in facts.Payloads)
        {
            var key = FormattableString.Invariant($"payload.{payload.Name}.{length:D2}.");
            AddLayout(text, key, payload);
            AddPromises(text, key, payload);
        }
        return text;
    }

    private static void AddAir(Canonical text, Air air)
    {
        text.Add("acknowledge", air.Acknowledge?.Value ?? true);
        text.Add("address-width", air.AddressWidth?.Value ?? 0);
        text.Add("channel", air.ChosenChannel is { } channel ? 2_400_000L + (channel * 1_000L) : 0);
        text.Add("crc", air.Crc?.Value ?? 0);
        text.Add("payload-length", air.PayloadLength?.Value.InManifest() ?? "");
        text.Add("rate", air.ChosenRate is { } rate ? 1_000_000_000L / rate.BitTime().Nanoseconds : 0);
    }

    // What stands where, and what it means: both ends must hold the same.
    private static void AddLayout(Canonical text, string key, Payload payload)
    {
        text.Add($"{key}byte-order", payload.IsBigEndian ? "big" : "little");
        text.Add($"{key}size", payload.Size);
        var index = 0;
        foreach (var (field, offset) in payload.Layout())
        {
            var at = FormattableString.Invariant($"{key}field.{index++:D2}.");
            text.Add($"{at}name", field.Name);
            text.Add($"{at}offset", offset);
            text.Add($"{at}count", field.Count);
            text.Add($"{at}type", field.TypeName);
            text.Add($"{at}scale", field.Scale);
            text.Add($"{at}unit", field.Unit ?? "");
            if (field.Constant is { } constant)
                text.Add($"{at}value", constant);
            for (var bit = 0; bit < field.Bits.Length; bit++)
                text.Add(FormattableString.Invariant($"{at}bit.{bit:D2}"), FormattableString.Invariant($"{field.Bits[bit].Name} {field.Bits[bit].Width}"));
            for (var choice = 0; choice < field.Choices.Length; choice++)
                text.Add(FormattableString.Invariant($"{at}choice.{choice:D3}"), field.Choices[choice]);
        }
    }

    // What only the sender's code holds to, or a program reads by meaning: no reason to refuse another node's packet.
    private static void AddPromises(Canonical text, string key, Payload payload)
    {
        for (var i = 0; i < payload.Fields.Length; i++)
        {
            var (field, at) = (payload.Fields[i], FormattableString.Invariant($"{key}field.{i:D2}."));
            if (field.Range is { } range)
            {
                text.Add($"{at}low", range.Low);
                text.Add($"{at}high", range.High);
            }
            if (field.Role is { } role)
                text.Add($"{at}role", role);
        }
    }
}
