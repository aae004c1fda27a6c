using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Rules;
using RadioLint.Rules.Hygiene;

namespace RadioLint.Emit;

/// <summary>Why a node cannot be written in C although its manifest may have passed with rules turned down.</summary>
internal static class Refusals
{
    /// <summary>A node without a whole register image.</summary>
    public static IEnumerable<Finding> OfImage(Node node)
    {
        var open = new List<string>();
        if (node.Air.ChosenChannel is null)
            open.Add("channel");
        if (node.Air.ChosenRate is null)
            open.Add("rate");
        if (node.Part is null)
            open.Add("radio.part");
        if (node.Power is null)
            open.Add("power");
        yield return open.Count > 0
            ? StillOpen(node, open)
            : WrongType.At(node.NamePlace, $"`{node.Label}`, whose registers cannot all be given,", "a node with channel, rate, power and addresses that its radio can take");
    }

    private static Finding StillOpen(Node node, List<string> keys)
    {
        var words = string.Join(", ", keys.Select(key => $"`{key}`"));
        return new(
            Catalogue.Find("RL8305")!, node.NamePlace, $"node `{node.Label}` cannot be written: {words} {(keys.Count == 1 ? "has" : "have")} no value yet",
            "state a value, or run `fill`")
        {
            Severity = Severity.Error,
            Subject = node,
        };
    }

    /// <summary>Names that the contract keeps for itself.</summary>
    public static IEnumerable<Finding> OfName(Node node)
    {
        var ident = C.Identifier(node.Name);
        if (ident == "radio" || ident.StartsWith("radio_", StringComparison.Ordinal))
            yield return UnusableName.Reserved(node.NamePlace, node.Name, "the emitted contract, which names all that it shares `radio_`");
    }
}
