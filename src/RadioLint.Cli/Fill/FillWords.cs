using RadioLint.Cli.Terminal;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Cli.Fill;

/// <summary>How choices are called.</summary>
internal static class FillWords
{
    /// <summary>` of `hive``; empty for what belongs to the network.</summary>
    public static string Of(object? target) => target switch
    {
        Node node => $" of `{node.Label}`",
        Link link => $" from `{link.FromText}` to `{link.ToText}`",
        Payload payload => $" of payload `{payload.Name}`",
        _ => "",
    };

    /// <summary>Kind and name, for programs.</summary>
    public static (string Kind, string Name) Name(object? target) => target switch
    {
        Node node => ("node", node.Label),
        Link link => ("link", link.Name),
        Payload payload => ("payload", payload.Name),
        _ => ("network", ""),
    };

    public static string Where(Place place) => FormattableString.Invariant($"{Printable.Text(place.Source.Name)}:{place.From.Line}:{place.From.Column}");
}
