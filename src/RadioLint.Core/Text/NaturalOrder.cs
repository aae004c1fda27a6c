namespace RadioLint.Text;

/// <summary>Ordinal order in which numbers count as numbers: hive-2 before hive-10. The same on every machine.</summary>
public sealed class NaturalOrder : IComparer<string>
{
    public static readonly NaturalOrder Instance = new();

    public int Compare(string? x, string? y)
    {
        var (a, b) = (x ?? "", y ?? "");
        int i = 0, j = 0;
        while (i < a.Length && j < b.Length)
        {
            var order = IsDigit(a[i]) && IsDigit(b[j]) ? CompareNumbers(a, ref i, b, ref j) : a[i++].CompareTo(b[j++]);
            if (order != 0)
                return order;
        }
        var rest = (a.Length - i).CompareTo(b.Length - j);
        return rest != 0 ? rest : string.CompareOrdinal(a, b);
    }

    private static int CompareNumbers(string a, ref int i, string b, ref int j)
    {
        var (first, second) = (Digits(a, ref i), Digits(b, ref j));
        return first.Length != second.Length ? first.Length.CompareTo(second.Length) : string.CompareOrdinal(first, second);
    }

    private static string Digits(string text, ref int at)
    {
        var start = at;
        while (at < text.Length && IsDigit(text[at]))
            at++;
        return text.Substring(start, at - start).TrimStart('0');
    }

    private static bool IsDigit(char c) => c is >= '0' and <= '9';
}
