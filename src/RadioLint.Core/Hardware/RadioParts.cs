using System.Collections.Concurrent;
using System.Collections.Immutable;
using RadioLint.Hardware.Keys;

namespace RadioLint.Hardware;

/// <summary>The radio chips that ship with the library; each file is read when its part is first named.</summary>
public static class RadioParts
{
    private const string Folder = "Hardware/radios/";
    private static readonly ConcurrentDictionary<string, Lazy<RadioPart>> Read = new(StringComparer.Ordinal);

    /// <summary>Part numbers in ordinal order.</summary>
    public static ImmutableArray<string> Names { get; } = ImmutableArray.CreateRange(DataFile.NamesIn(Folder));

    /// <summary>The part of exactly this number, or null.</summary>
    public static RadioPart? Find(string name) => Names.Contains(name, StringComparer.Ordinal)
        ? Read.GetOrAdd(name, part => new(() => DataFile.Read($"{Folder}{part}.yaml", RadioPartKeys.File))).Value
        : null;
}
