using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Rules.Hygiene;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Manifest.Keys;

/// <summary>The keys at the top of a manifest.</summary>
public static class RootKeys
{
    // Not required here: that it is missing is RL8007, and the format is assumed.
    public static readonly Key<int> Format = new("radiolint", Quantities.Count("the format, `1`"), "the manifest's format");
    public static readonly Key<string> Network = new("network", Scalars.NewName, "the network's name") { IsRequired = true };
    // Norway's code, when it is not quoted, is false to readers of YAML 1.1.
    private static readonly ScalarShape<string> CountryCode = new(
        "a country code such as `GB`",
        (LocatedScalar scalar, out string value) =>
        {
            value = scalar.Text;
            return AmbiguousScalar.IsTruth(scalar)
                ? AmbiguousScalar.At(scalar, "a country code", $"`\"{value.ToUpperInvariant()}\"`, with the quotes, for Norway") with
                {
                    Fixes = ImmutableArray.Create(Remedy.Offer(scalar.Place, $"\"{value.ToUpperInvariant()}\"", "Quote it")),
                }
                : null;
        },
        new SchemaForm.Scalar("^[A-Z]{2}$"));

    public static readonly Key<string> Region = new("region", CountryCode, "ISO 3166 country code: whose band rules to check");
    public static readonly Key<string> Site = new("site", Scalars.Text, "networks of one site are compared");
    public static readonly Key<Setting> SettingKey = new("setting", HabitKeys.SettingWord, "what the radio crosses");
    public static readonly Key<ImmutableArray<Stated<string>>> Include = new("include", new ListShape<string>(Scalars.Text), "files with boards, payloads, rules");
    public static readonly Key<Settings> Air = new("air", AirKeys.Shape, "what every node must agree on")
    { Advice = "write its keys, such as `{ channel: 74, rate: 1 Mbps }`" };
    public static readonly Key<ImmutableArray<Stated<SurveyFile>>> Survey = new("survey", NeighbourKeys.SurveyShape, "survey logs");
    public static readonly Key<Settings> AllNodes = new("all-nodes", NodeKeys.OfAll.Shape, "what all nodes have unless they say otherwise");

    public static readonly Key<ImmutableArray<Named<Settings>>> Nodes =
        new("nodes", new NamedShape<Settings>("nodes", NodeKeys.OfNode.Shape, Scalars.NewName), "the nodes by name")
        { Advice = "write each node under its name, such as `hive: { board: atmega328p }`" };

    public static readonly Key<ImmutableArray<Stated<Settings>>> Links = new("links", new ListShape<Settings>(LinkKeys.Shape), "who sends what to whom")
        { Advice = "write each link as `- { from: hive, to: shed, payload: reading, every: 10 min }`" };

    public static readonly Key<ImmutableArray<Named<Payload>>> Payloads =
        new("payloads", new NamedShape<Payload>("payloads", PayloadKeys.Shape, Scalars.NewName), "what packets carry")
        { Advice = "write each payload under its name, such as `reading: { weight: int32 g }`" };

    public static readonly Key<ImmutableArray<Named<BoardChoice>>> Boards =
        new("boards", new NamedShape<BoardChoice>("boards", BoardKeys.Own, Scalars.NewName), "board profiles of one's own");

    public static readonly Key<RuleSettings> Rules = new("rules", RulesKeys.Shape, "severities and allowances");

    private static readonly Key<string> ChangeFrom = new("from", Scalars.Text, "the manifest of the plan in the field");
    private static readonly Key<ImmutableArray<Stated<string>>> ChangeOrder = new("order", new ListShape<string>(Scalars.Reference), "nodes in the order of flashing");
    private static readonly Key<string> ChangeBy = new("by", Scalars.Words("a way", ("air", "air"), ("cable", "cable")), "how the new plan gets there");

    private static readonly Key<Duration?> FallBack = new(
        "fall-back", Scalars.Words<Duration?>("a time", ("none", null)).Or(Quantities.Duration.To(d => (Duration?)d)).Named("a time such as `2 h`, or none"),
        "silence after which nodes return to the old plan");

    /// <summary>`change`: read and kept for the comparison of two plans.</summary>
    public static readonly Key<Change> ChangeKey = new(
        "change",
        new MapShape<Change>(
            "`change`",
            [ChangeFrom, ChangeOrder, ChangeBy, FallBack],
            s => new(s.Place, s.Written(ChangeFrom), s.Written(ChangeOrder), s.Written(ChangeBy), s.Written(FallBack))),
        "the plan in the field and how the new one gets there");

    public static readonly MapShape<Settings> Shape = new(
        "a manifest",
        [Format, Network, Region, Site, SettingKey, Include, Air, Survey, AllNodes, Nodes, Links, Payloads, Boards, Rules, ChangeKey],
        s => s);

    /// <summary>The keys of an included file.</summary>
    public static readonly Key<int> IncludedFormat = new("radiolint", Quantities.Count("the format, `1`"), "the manifest's format");

    public static readonly Key<ImmutableArray<Named<Payload>>> IncludedPayloads =
        new("payloads", new NamedShape<Payload>("payloads", PayloadKeys.Shape, Scalars.NewName), "what packets carry");

    public static readonly Key<ImmutableArray<Named<BoardChoice>>> IncludedBoards =
        new("boards", new NamedShape<BoardChoice>("boards", BoardKeys.Own, Scalars.NewName), "board profiles");

    public static readonly Key<RuleSettings> IncludedRules = new("rules", RulesKeys.Shape, "severities and allowances");

    public static readonly Key<ImmutableArray<Stated<string>>> IncludedInclude =
        new("include", new ListShape<string>(Scalars.Text), "further files");

    public static readonly MapShape<Settings> IncludedShape = new(
        "an included file", [IncludedFormat, IncludedInclude, IncludedPayloads, IncludedBoards, IncludedRules], s => s);
}

/// <summary>What `change` says.</summary>
public sealed record Change(Place Place, Stated<string>? From, Stated<ImmutableArray<Stated<string>>>? Order, Stated<string>? By, Stated<Duration?>? FallBack);
