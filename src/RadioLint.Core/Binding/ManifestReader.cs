using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Manifest.Keys;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Rules.Hygiene;
using RadioLint.Spectrum;
using RadioLint.Text;

namespace RadioLint.Binding;

/// <summary>From a manifest's text to the network that it describes, with a finding for everything that cannot be read as meant.</summary>
internal static class ManifestReader
{
    /// <summary>The network, or null when too little can be read to speak of one.</summary>
    /// <param name="source">The manifest.</param>
    /// <param name="include">Yields an included file's bytes by its path as written, below the manifest's folder; null when there is none.</param>
    public static Network? Read(SourceText source, Func<string, byte[]?> include, List<Finding> findings) => Read(source, include, findings, isFieldPlan: false);

    /// <summary>The network of a plan that is replaced: what it replaced itself is past.</summary>
    public static Network? ReadFieldPlan(SourceText source, Func<string, byte[]?> include, List<Finding> findings) => Read(source, include, findings, isFieldPlan: true);

    private static Network? Read(SourceText source, Func<string, byte[]?> include, List<Finding> findings, bool isFieldPlan)
    {
        if (TreeReader.Read(source, findings) is not { } root)
            return null;
        if (IsBlank(root))
        {
            findings.Add(NothingToCheck.EmptyFile(root.Place));
            return null;
        }
        if (!RootKeys.Shape.TryRead(root, findings, out var settings) || root is not LocatedMap map)
            return null;
        CheckFormat(settings, findings);
        if (settings.Written(RootKeys.Nodes) is not { Value.IsEmpty: false } entries)
        {
            if (!settings.Has(RootKeys.Nodes) || settings.Written(RootKeys.Nodes) is not null)
                findings.Add(NothingToCheck.NoNodes(StartOf(map, RootKeys.Nodes)));
            return null;
        }
        var air = settings.Written(RootKeys.Air)?.Value;
        if (air is null && map.Find(RootKeys.Air.Name) is { } unreadable)
            air = AirKeys.Shape.Unreadable(unreadable.Value.Place);
        // The tree, a third of a large manifest's memory, ends here: nothing below may ask for it.
        return Build(source, settings, entries.Value, air, Included.ReadAll(settings, include, findings), isFieldPlan ? null : include, findings);
    }

    private static Network Build(
        SourceText source, Settings settings, ImmutableArray<Named<Settings>> entries, Settings? networkAir, Included included, Func<string, byte[]?>? fieldPlan, List<Finding> findings)
    {
        var payloads = Payloads(settings, included, findings);
        var boards = new BoardLibrary((settings.Written(RootKeys.Boards)?.Value ?? ImmutableArray<Named<BoardChoice>>.Empty).AddRange(included.Boards), findings);
        var air = AirBuilder.Build([networkAir], settings.Place);
        var name = settings.Written(RootKeys.Network);
        var nodes = new NodeBuilder(settings.Place, settings.Written(RootKeys.AllNodes)?.Value, networkAir, boards, findings).Build(entries);
        var linkBuilder = new LinkBuilder(nodes, payloads, findings);
        var (links, hops) = linkBuilder.Build(settings.Written(RootKeys.Links)?.Value ?? ImmutableArray<Stated<Settings>>.Empty);
        var region = Region(settings, findings);
        var written = settings.Written(RootKeys.Rules)?.Value ?? RuleSettings.None;
        ReportOverridden(written, included.Rules, findings);
        var change = settings.Written(RootKeys.ChangeKey)?.Value;
        return new()
        {
            Source = source,
            Place = settings.Place,
            Name = name,
            RegionCode = region,
            WritesRegion = settings.Has(RootKeys.Region),
            Band = Bands.For(region?.Value),
            Site = settings.Written(RootKeys.Site),
            Setting = settings.Written(RootKeys.SettingKey),
            Air = air,
            Neighbours = networkAir?.Written(AirKeys.NeighboursKey)?.Value ?? Neighbours.None,
            Survey = Surveys(settings),
            Nodes = nodes,
            Links = links,
            Hops = hops,
            Payloads = payloads,
            Rules = new(
                // The last counts: the manifest's own, then those of the file that is included first.
                ImmutableArray.CreateRange(included.Rules.AsEnumerable().Reverse().SelectMany(rules => rules.Severities).Concat(written.Severities)),
                written.Allowances.AddRange(included.Rules.SelectMany(rules => rules.Allowances)),
                written.Locked.AddRange(included.Rules.SelectMany(rules => rules.Locked))),
            Change = change,
            Before = fieldPlan is null ? null : FieldPlan.Read(source, change?.From, fieldPlan, findings),
            ChangeOrder = ImmutableArray.CreateRange((change?.Order?.Value ?? ImmutableArray<Stated<string>>.Empty)
                .Select(entry => new Stated<ImmutableArray<Node>>(linkBuilder.Selected(entry), entry.Place)).Where(entry => !entry.Value.IsEmpty)),
            UnusedBoards = ImmutableArray.CreateRange(boards.Unused(source)),
            Plan = Planner.Plan(name?.Value ?? "", nodes, hops),
        };
    }

    private static void ReportOverridden(RuleSettings own, IEnumerable<RuleSettings> included, List<Finding> findings)
    {
        var counts = new Dictionary<string, SeveritySetting>(StringComparer.Ordinal);
        foreach (var setting in own.Severities.Concat(included.SelectMany(rules => rules.Severities)))
        {
            if (!counts.TryGetValue(setting.Rule.Text, out var first))
                counts.Add(setting.Rule.Text, setting);
            else if (first.Severity.Value != setting.Severity.Value && first.Rule.Place.Source != setting.Rule.Place.Source)
                findings.Add(IncludeOverridden.At(first.Rule.Place, $"the severity of {setting.Rule.Text}", setting.Rule.Place));
        }
    }

    private static bool IsBlank(LocatedValue root) => root is LocatedScalar { IsQuoted: false, Text: "" or "~" or "null" } || root is LocatedMap { Entries.Count: 0 };

    private static void CheckFormat(Settings settings, List<Finding> findings)
    {
        if (!settings.Has(RootKeys.Format))
            findings.Add(FormatVersion.Missing(settings.Place, settings.Place.Source.Text[settings.Place.Start] == '{'));
        else if (settings.Written(RootKeys.Format) is { } format && format.Value != FormatVersion.Current)
            findings.Add(FormatVersion.Other(format.Place, format.Value));
    }

    private static Place StartOf(LocatedMap map, Key key) => map.Find(key.Name)?.Key.Place ?? map.Entries[0].Key.Place;

    private static Stated<string>? Region(Settings settings, List<Finding> findings)
    {
        if (settings.Written(RootKeys.Region) is not { } region)
            return null;
        if (Countries.IsKnown(region.Value))
            return region;
        findings.Add(ValueNotInList.Country(region.Place, region.Value, Countries.Codes));
        return null;
    }

    private static ImmutableArray<Stated<SurveyFile>> Surveys(Settings settings) =>
        settings.Written(RootKeys.Survey)?.Value ?? ImmutableArray<Stated<SurveyFile>>.Empty;

    private static ImmutableArray<Payload> Payloads(Settings settings, Included included, List<Finding> findings)
    {
        var all = (settings.Written(RootKeys.Payloads)?.Value ?? ImmutableArray<Named<Payload>>.Empty).AddRange(included.Payloads);
        IdentifierClash.Report(all.Select(one => one.Name), findings);
        foreach (var (_, payload) in all)
            IdentifierClash.Report(payload.Value.Fields.Select(one => (one.Name, one.Place)), findings);
        return ImmutableArray.CreateRange(all.Select(one => one.Value.Value with { Name = one.Name.Text, NamePlace = one.Name.Place }));
    }
}

/// <summary>Finds names that become the same identifier.</summary>
internal static class IdentifierClash
{
    public static void Report(IEnumerable<LocatedScalar> names, List<Finding> findings) =>
        Report(names.Select(name => (name.Text, name.Place)), findings);

    public static void Report(IEnumerable<(string Name, Place Place)> names, List<Finding> findings)
    {
        var seen = new Dictionary<string, (string Name, Place Place)>(StringComparer.Ordinal);
        foreach (var (name, place) in names)
        {
            var identifier = Names.Identifier(name);
            if (seen.TryGetValue(identifier, out var first))
                findings.Add(UnusableName.SameIdentifier(place, name, first.Place, first.Name, identifier));
            else
                seen.Add(identifier, (name, place));
        }
    }
}
