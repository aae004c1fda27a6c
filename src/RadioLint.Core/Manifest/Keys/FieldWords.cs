namespace RadioLint.Manifest.Keys;

/// <summary>The words of a field's text, one after the other.</summary>
internal sealed class FieldWords(LocatedScalar scalar)
{
    private readonly string[] words = scalar.Text.Split(' ');
    private int next;

    public string? Peek() => At(0);

    public string? At(int ahead) => next + ahead < words.Length ? words[next + ahead] : null;

    public string? Next() => next < words.Length ? words[next++] : null;

    public void Skip(int count) => next += count;
}
