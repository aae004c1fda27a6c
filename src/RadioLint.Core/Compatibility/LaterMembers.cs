// Members that came after netstandard2.0, under their own names, so that call sites read alike in both builds.
#pragma warning disable IDE0130
using System.Globalization;

namespace System
{
    internal static class LaterConversions
    {
        extension(Convert)
        {
            public static string ToHexString(byte[] bytes) => Convert.ToHexString(bytes, 0, bytes.Length);

            public static string ToHexString(byte[] bytes, int from, int count) => BitConverter.ToString(bytes, from, count).Replace("-", "");
        }

        extension(decimal)
        {
            public static int GetBits(decimal value, Span<int> bits)
            {
                var parts = decimal.GetBits(value);
                parts.CopyTo(bits);
                return parts.Length;
            }
        }
    }

    internal static class LaterText
    {
        extension(string text)
        {
            /// <summary>Ordinal, as this overload of netstandard2.0 is without saying so.</summary>
            public string Replace(string old, string now, StringComparison comparison) =>
                comparison is StringComparison.Ordinal ? text.Replace(old, now) : throw new NotSupportedException($"{comparison}");
        }

        public static bool ContainsAny(this ReadOnlySpan<char> text, char first, char second, char third) => text.IndexOfAny(first, second, third) >= 0;
    }
}

namespace System.Security.Cryptography
{
    internal static class LaterHashes
    {
        extension(SHA256)
        {
            public static byte[] HashData(byte[] bytes)
            {
                using var hash = SHA256.Create();
                return hash.ComputeHash(bytes);
            }
        }
    }
}

namespace System.Text
{
    internal static class LaterBuilder
    {
        public static StringBuilder Append(this StringBuilder text, CultureInfo culture, FormattableString more) => text.Append(more.ToString(culture));
    }
}

namespace System.Linq
{
    internal static class LaterQueries
    {
        /// <summary>The first of those with the same key, in their order.</summary>
        public static IEnumerable<T> DistinctBy<T, TKey>(this IEnumerable<T> items, Func<T, TKey> key)
        {
            var seen = new HashSet<TKey>();
            foreach (var item in items)
            {
                if (seen.Add(key(item)))
                    yield return item;
            }
        }
    }
}
