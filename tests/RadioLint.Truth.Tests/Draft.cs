using System.Globalization;
using System.Text;

namespace RadioLint.Tests.Truth;

/// <summary>A network in rough strokes: what matters on the air, as lines of a manifest, so that it can be drawn at random and made smaller.</summary>
public sealed record Draft(IReadOnlyList<(string Key, string Value)> Air, IReadOnlyList<NodeDraft> Nodes, IReadOnlyList<LinkDraft> Links, IReadOnlyList<(string Name, int Bytes)> Payloads)
{
    /// <summary>The manifest.</summary>
    public string Text()
    {
        var text = new StringBuilder("radiolint: 1\nnetwork: draw\nregion: GB\nair:\n");
        foreach (var (key, value) in Air)
            text.Append(CultureInfo.InvariantCulture, $"  {key}: {value}\n");
        text.Append("nodes:\n");
        foreach (var node in Nodes)
        {
            text.Append(CultureInfo.InvariantCulture, $"  {node.Name}:\n    board: esp32\n    radio: {{ part: {node.Part} }}\n    pins: {{ ce: GPIO27, csn: GPIO5 }}\n    supply: {{ from: regulator, part: AP2112K-3.3, input: 5 V, capacitor: 10 uF ceramic }}\n    wires: 5 cm\n");
            if (node.Air.Count > 0)
                text.Append(CultureInfo.InvariantCulture, $"    air: {{ {Flow(node.Air)} }}\n");
            if (node.Pipes.Count > 0)
                text.Append(CultureInfo.InvariantCulture, $"    pipes: {{ {Flow(node.Pipes)} }}\n");
        }
        text.Append("links:\n");
        foreach (var link in Links)
        {
            var to = link.To.Count == 1 ? link.To[0] : $"[{string.Join(", ", link.To)}]";
            text.Append(CultureInfo.InvariantCulture, $"  - {{ from: {link.From}, to: {to}, payload: {link.Payload}, every: 1 min{string.Concat(link.More.Select(one => $", {one.Key}: {one.Value}"))} }}\n");
        }
        text.Append("payloads:\n");
        foreach (var (name, bytes) in Payloads)
            text.Append(CultureInfo.InvariantCulture, $"  {name}: {{ content: bytes {bytes} }}\n");
        return text.ToString();
    }

    /// <summary>Everything that is one thing less.</summary>
    public IEnumerable<Draft> Smaller()
    {
        foreach (var link in Links.Where(_ => Links.Count > 1))
            yield return this with { Links = [.. Links.Where(other => other != link)] };
        foreach (var node in Nodes.Where(node => !Links.Any(link => link.From == node.Name || link.To.Contains(node.Name))))
            yield return this with { Nodes = [.. Nodes.Where(other => other != node)] };
        foreach (var payload in Payloads.Where(payload => !Links.Any(link => link.Payload == payload.Name)))
            yield return this with { Payloads = [.. Payloads.Where(other => other != payload)] };
        foreach (var setting in Air.Where(setting => setting.Key is not ("channel" or "rate")))
            yield return this with { Air = [.. Air.Where(other => other != setting)] };
        for (var i = 0; i < Nodes.Count; i++)
        {
            var node = Nodes[i];
            foreach (var setting in node.Air)
                yield return With(i, node with { Air = [.. node.Air.Where(other => other != setting)] });
            foreach (var pipe in node.Pipes)
                yield return With(i, node with { Pipes = [.. node.Pipes.Where(other => other != pipe)] });
            if (node.Part != "nRF24L01+")
                yield return With(i, node with { Part = "nRF24L01+" });
        }
        for (var i = 0; i < Links.Count; i++)
        {
            var link = Links[i];
            foreach (var setting in link.More)
                yield return this with { Links = [.. Links.Select((other, at) => at == i ? link with { More = [.. link.More.Where(one => one != setting)] } : other)] };
            if (link.To.Count > 1)
                yield return this with { Links = [.. Links.Select((other, at) => at == i ? link with { To = [link.To[0]] } : other)] };
        }
    }

    private Draft With(int at, NodeDraft node) => this with { Nodes = [.. Nodes.Select((other, i) => i == at ? node : other)] };

    private static string Flow(IEnumerable<(string Key, string Value)> settings) => string.Join(", ", settings.Select(one => $"{one.Key}: {one.Value}"));
}

/// <summary>A node: its part and what is its own.</summary>
public sealed record NodeDraft(string Name, string Part, IReadOnlyList<(string Key, string Value)> Air, IReadOnlyList<(string Key, string Value)> Pipes);

/// <summary>A link with its further keys.</summary>
public sealed record LinkDraft(string From, IReadOnlyList<string> To, string Payload, IReadOnlyList<(string Key, string Value)> More);
