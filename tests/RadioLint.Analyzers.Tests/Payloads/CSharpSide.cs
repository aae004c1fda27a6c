using System.Globalization;
using System.Reflection;
using System.Text;
using RadioLint.Model;

namespace RadioLint.Tests.Analyzers.Payloads;

/// <summary>A generated struct behind words, as the C program speaks them.</summary>
public abstract class CSharpSide
{
    public static CSharpSide Of(Assembly host, string type, Payload payload)
    {
        var of = host.GetType(type) ?? throw new InvalidOperationException($"{type} was not generated");
        return (CSharpSide)Activator.CreateInstance(typeof(Of<>).MakeGenericType(of), payload)!;
    }

    /// <summary>The bytes as hex, or `refused`.</summary>
    public abstract string Encode(IReadOnlyList<string> words);

    /// <summary>`read` and the values' words, or `refused`.</summary>
    public abstract string Decode(byte[] bytes);

    /// <summary>The payload made again of its values in their units: its bytes as hex, or `refused`.</summary>
    public abstract string Remade(IReadOnlyList<string> words);
}

internal sealed class Of<T> : CSharpSide
    where T : struct
{
    private delegate bool Reading(ReadOnlySpan<byte> source, out T value);

    private delegate bool Writing(ref T payload, Span<byte> destination);

    private delegate void Throwing(ref T payload, Span<byte> destination);

    private readonly List<Field> fields;
    private readonly ConstructorInfo? make;
    private readonly PropertyInfo[] members;
    private readonly MethodInfo? fromValues;
    private readonly Reading read;
    private readonly Writing tryWrite;
    private readonly Throwing write;
    private readonly int size;

    public Of(Payload payload)
    {
        fields = [.. payload.Fields.Where(field => field.Constant is null)];
        make = typeof(T).GetConstructors().SingleOrDefault(one => one.GetParameters().Length > 0);
        members = [.. (make?.GetParameters() ?? []).Select(parameter => PropertyOf(parameter.Name!))];
        fromValues = typeof(T).GetMethod("FromValues");
        read = typeof(T).GetMethod("TryRead")!.CreateDelegate<Reading>();
        tryWrite = typeof(T).GetMethod("TryWrite")!.CreateDelegate<Writing>();
        write = typeof(T).GetMethod("Write")!.CreateDelegate<Throwing>();
        size = (int)typeof(T).GetField("Size")!.GetValue(null)!;
    }

    public override string Encode(IReadOnlyList<string> words) => Encoded(Made(words));

    public override string Decode(byte[] bytes)
    {
        if (!read(bytes, out var value))
            return value.Equals(default(T)) ? "refused" : "refused, but something was read";
        return "read" + string.Concat(Words(value).Select(word => " " + word));
    }

    public override string Remade(IReadOnlyList<string> words)
    {
        var made = Made(words);
        if (fromValues is null)
            return Encoded(made);
        try
        {
            var given = fromValues.GetParameters().Select(parameter => PropertyOf(parameter.Name!).GetValue(made)).ToArray();
            return Encoded((T)fromValues.Invoke(null, given)!);
        }
        catch (TargetInvocationException fault) when (fault.InnerException is ArgumentException)
        {
            return "refused";
        }
    }

    private static PropertyInfo PropertyOf(string parameter) => typeof(T).GetProperty(char.ToUpperInvariant(parameter[0]) + parameter[1..])!;

    private string Encoded(T payload)
    {
        var bytes = new byte[size + 3];
        bytes.AsSpan().Fill(0xA5);
        var done = tryWrite(ref payload, bytes);
        if (bytes[size..].Any(one => one != 0xA5) || (!done && bytes.Any(one => one != 0xA5)))
            return "wrote outside";
        if (tryWrite(ref payload, new byte[size - 1]))
            return "wrote without room";
        var again = new byte[size];
        try
        {
            write(ref payload, again);
        }
        catch (ArgumentException fault)
        {
            return done ? "refused by Write only" : fault.Message.Length > 10 ? "refused" : "refused without a word";
        }
        return !done ? "refused by TryWrite only" : again.AsSpan().SequenceEqual(bytes.AsSpan(0, size)) ? Convert.ToHexString(again) : "differs from Write";
    }

    private T Made(IReadOnlyList<string> words)
    {
        if (make is null)
            return default;
        var (arguments, word, parameter) = (new List<object>(), 0, 0);
        foreach (var field in fields)
        {
            for (var i = 0; i < Math.Max(1, field.Bits.Length); i++)
            {
                var type = make.GetParameters()[parameter++].ParameterType;
                arguments.Add(field.Count == 1 ? Parsed(type, words[word]) : Several(type, words.Skip(word).Take(field.Count)));
                word += field.Count;
            }
        }
        return (T)make.Invoke([.. arguments]);
    }

    private static object Several(Type items, IEnumerable<string> words)
    {
        var item = items.GetGenericArguments()[0];
        var parsed = words.Select(word => Parsed(item, word)).ToArray();
        var array = Array.CreateInstance(item, parsed.Length);
        parsed.CopyTo(array, 0);
        return Activator.CreateInstance(items, array)!;
    }

    private static object Parsed(Type type, string word)
    {
        if (type == typeof(float))
            return BitConverter.UInt32BitsToSingle(uint.Parse(word, NumberStyles.HexNumber, CultureInfo.InvariantCulture));
        if (type == typeof(bool))
            return word != "0";
        if (type == typeof(string))
            return word == "-" ? "" : Encoding.UTF8.GetString(Convert.FromHexString(word));
        if (type.IsGenericType)
            return Activator.CreateInstance(type, Convert.FromHexString(word))!;
        return type.IsEnum
            ? Enum.ToObject(type, ulong.Parse(word, CultureInfo.InvariantCulture))
            : Convert.ChangeType(decimal.Parse(word, CultureInfo.InvariantCulture), type, CultureInfo.InvariantCulture);
    }

    private IEnumerable<string> Words(T value)
    {
        var next = 0;
        foreach (var field in fields)
        {
            for (var i = 0; i < Math.Max(1, field.Bits.Length); i++)
            {
                var member = members[next++].GetValue(value)!;
                if (field.Count == 1)
                {
                    yield return Word(member);
                    continue;
                }
                foreach (var item in (System.Collections.IEnumerable)member)
                    yield return Word(item!);
            }
        }
    }

    private static string Word(object value) => value switch
    {
        float number => BitConverter.SingleToUInt32Bits(number).ToString("X8", CultureInfo.InvariantCulture),
        bool flag => flag ? "1" : "0",
        string text => text.Length == 0 ? "-" : Convert.ToHexString(Encoding.UTF8.GetBytes(text)),
        IEnumerable<byte> bytes => Convert.ToHexString([.. bytes]),
        Enum choice => Convert.ToUInt64(choice, CultureInfo.InvariantCulture).ToString(CultureInfo.InvariantCulture),
        _ => Convert.ToString(value, CultureInfo.InvariantCulture)!,
    };
}
