using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Rules.Hygiene;
using RadioLint.Text;

namespace RadioLint.Manifest.Keys;

/// <summary>`rules`: severities by ID, `allow`, `locked`.</summary>
public sealed class RulesKeys : Shape<RuleSettings>
{
    public static readonly RulesKeys Shape = new();

    /// <summary>The words for a severity.</summary>
    public static readonly ScalarShape<Severity> SeverityWord = Scalars.Words(
        "a severity", ("error", Severity.Error), ("warning", Severity.Warning), ("info", Severity.Info), ("silent", Severity.Silent));

    private static readonly Key<string> Rule = new("rule", Scalars.Text, "the finding's ID") { IsRequired = true };
    private static readonly Key<string> Node = new("node", Scalars.Text, "only on this node or group");
    private static readonly Key<string> Link = new("link", Scalars.Text, "only on this link, as `from to`");
    private static readonly Key<string> Because = new("because", Scalars.Text, "the reason");
    private static readonly Key<DateTime> Until = new("until", Scalars.Date, "last day that it holds");

    public static readonly MapShape<Allowance> AllowShape = new(
        "an `allow` entry",
        [Rule, Node, Link, Because, Until],
        s => new(s.Place, s.Written(Rule), s.Written(Node), s.Written(Link), s.Written(Because), s.Written(Until)));

    private static readonly ListShape<Allowance> AllowList = new(AllowShape);
    private static readonly ListShape<string> LockedList = new(Scalars.Text);

    public override string Expected => "rules, a map of IDs with severities, `allow` and `locked`";

    public override SchemaForm Form => new SchemaForm.Rules(AllowShape);

    public override bool TryRead(LocatedValue value, List<Finding> findings, [MaybeNullWhen(false)] out RuleSettings result)
    {
        result = null;
        if (value is not LocatedMap map)
        {
            findings.Add(WrongType.At(value.Place, value is LocatedScalar scalar ? $"`{scalar.Text}`" : value.Kind, Expected));
            return false;
        }
        var severities = ImmutableArray.CreateBuilder<SeveritySetting>();
        var allowances = ImmutableArray<Allowance>.Empty;
        var locked = ImmutableArray<Stated<string>>.Empty;
        foreach (var entry in map.Entries)
        {
            if (entry.Key.Text == "allow")
                allowances = AllowList.TryRead(entry.Value, findings, out var allow) ? ImmutableArray.CreateRange(allow.Select(one => one.Value)) : allowances;
            else if (entry.Key.Text == "locked")
                locked = LockedList.TryRead(entry.Value, findings, out var list) ? list : locked;
            else if (!LooksLikeId(entry.Key.Text) && !entry.Key.Text.StartsWith("x-", StringComparison.Ordinal))
                findings.Add(UnknownKey.At(entry.Key, "`rules`", ["allow", "locked"], Nearest.To(entry.Key.Text, ["allow", "locked"])));
            else if (LooksLikeId(entry.Key.Text) && SeverityWord.TryRead(entry.Value, findings, out var severity))
                severities.Add(new(entry.Key, new(severity, entry.Value.Place)));
        }
        result = new(severities.ToImmutable(), allowances, locked);
        return true;
    }

    private static bool LooksLikeId(string text) =>
        text.Length > 2 && text.StartsWith("RL", StringComparison.OrdinalIgnoreCase) && text.Skip(2).All(c => c is >= '0' and <= '9');
}
