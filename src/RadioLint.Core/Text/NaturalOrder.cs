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

    // Leading zeros aside, the longer run of digits is the larger number; of equally long ones the first digit that differs decides.
    private static int CompareNumbers(string a, ref int i, string b, ref int j)
    {
        var (first, second) = (Significant(a, ref i), Significant(b, ref j));
        var (firstLength, secondLength) = (i - first, j - second);
        return firstLength != secondLength
            ? firstLength.CompareTo(secondLength)
            : string.CompareOrdinal(a, first, b, second, firstLength);
    }

    // Where the digits without leading zeros begin; moves past them all.
    private static int Significant(string text, ref int at)
    {
        while (at < text.Length && text[at] == '0')
            at++;
        var start = at;
        while (at < text.Length && IsDigit(text[at]))
            at++;
        return start;
    }

    private static bool IsDigit(char c) => c is >= '0' and <= '9';
}
