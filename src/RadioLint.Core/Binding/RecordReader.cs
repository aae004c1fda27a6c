using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Binding;

/// <summary>Reads the record of what was emitted into the model. Whoever lacks a part of it compares less.</summary>
internal static class RecordReader
{
    /// <summary>The record; null when it cannot be read, which `emit` says itself, with the way out.</summary>
    public static IssuedRecord? Read(string name, byte[] bytes)
    {
        // Those are the record's faults, not the manifest's.
        var unsaid = new List<Finding>();
        if (FileText.Decode(name, bytes, unsaid) is not { } source || TreeReader.Read(source, unsaid) is not LocatedMap root || Map(root, "now") is not { } now)
            return null;
        return new(new(source, 0, 0), State(now), Map(root, "before") is { } before ? State(before) : null, Texts(Map(root, "left-over")));
    }

    private static RecordedState State(LocatedMap state) => new(
        Each(Map(state, "nodes"), (place, node) => new RecordedNode(place, Scalar(node, "digest"), Scalar(node, "fingerprint"), Scalar(node, "file")?.Text, Scalar(node, "hash")?.Text)),
        Each(Map(state, "payloads"), (place, payload) => new RecordedPayload(place, Scalar(payload, "layout")?.Text, Scalar(payload, "version")?.Text)),
        Texts(Map(state, "files")));

    private static ImmutableDictionary<string, T> Each<T>(LocatedMap? map, Func<Place, LocatedMap, T> read)
    {
        var result = ImmutableDictionary.CreateBuilder<string, T>(StringComparer.Ordinal);
        foreach (var (key, value) in map?.Entries ?? [])
        {
            if (value is LocatedMap one)
                result[key.Text] = read(key.Place, one);
        }
        return result.ToImmutable();
    }

    private static ImmutableDictionary<string, string> Texts(LocatedMap? map)
    {
        var result = ImmutableDictionary.CreateBuilder<string, string>(StringComparer.Ordinal);
        foreach (var (key, value) in map?.Entries ?? [])
        {
            if (value is LocatedScalar text)
                result[key.Text] = text.Text;
        }
        return result.ToImmutable();
    }

    private static LocatedMap? Map(LocatedMap map, string key) => map.Find(key)?.Value as LocatedMap;

    private static LocatedScalar? Scalar(LocatedMap map, string key) => map.Find(key)?.Value as LocatedScalar;
}
