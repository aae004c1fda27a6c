using System.Collections.Immutable;

namespace RadioLint.Hardware;

/// <summary>The parts of one data file by name, read when the first is asked for. Names are compared letter by letter.</summary>
internal sealed class Shelf<T>(Func<ImmutableArray<T>> read, Func<T, string> name)
    where T : class
{
    private readonly Lazy<ImmutableArray<T>> parts = new(read);

    /// <summary>In the file's order.</summary>
    public ImmutableArray<T> All => parts.Value;

    public ImmutableArray<string> Names => ImmutableArray.CreateRange(All.Select(name));

    public T? Find(string wanted) => All.FirstOrDefault(part => string.Equals(name(part), wanted, StringComparison.Ordinal));
}
