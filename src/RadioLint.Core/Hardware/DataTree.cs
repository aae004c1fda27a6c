using RadioLint.Manifest;
using RadioLint.Text;

namespace RadioLint.Hardware;

/// <summary>
/// Reads the part of YAML that the shipped data files keep to, many times as fast as the parser for users' files, because every start waits
/// for it: maps and lists by indentation, those in brackets within one line, values of one line, plain or in quotes without escapes.
/// Whatever else a file holds throws <see cref="InvalidOperationException"/> with its place. Tests hold each file to the tree that
/// <see cref="TreeReader"/> makes of it.
/// </summary>
internal sealed class DataTree
{
    private const char End = '\0';
    private readonly SourceText source;
    private int at;

    private DataTree(SourceText source) => this.source = source;

    private char Current => at < source.Text.Length ? source.Text[at] : End;

    private char Following => at + 1 < source.Text.Length ? source.Text[at + 1] : End;

    private int Column => at - (at == 0 ? 0 : source.Text.LastIndexOf('\n', at - 1) + 1);

    private bool StartsItem => Current == '-' && Following == ' ';

    public static LocatedMap Read(SourceText source)
    {
        var reader = new DataTree(source);
        reader.ToContent();
        var root = reader.Map(reader.Column);
        return reader.Current == End ? root : throw reader.Fault("the end of the file");
    }

    private LocatedValue Block(int column) => StartsItem ? List(column) : Map(column);

    private LocatedMap Map(int column)
    {
        var map = new LocatedMap(default);
        var start = at;
        do
        {
            var key = Scalar(isInBrackets: false);
            Take(':', "`:` after the key");
            Add(map, key, Beside() ?? Below(column));
            ToContent();
        }
        while (Current != End && Column == column && !StartsItem);
        map.Place = From(start, map.Entries[map.Entries.Count - 1].Value.Place.End);
        return map;
    }

    private LocatedList List(int column)
    {
        var list = new LocatedList(default);
        var start = at;
        do
        {
            at++;
            list.Add(Item());
            ToContent();
        }
        while (StartsItem && Column == column);
        list.Place = From(start, list.Items[list.Items.Count - 1].Place.End);
        return list;
    }

    private LocatedValue Item()
    {
        SkipSpaces();
        var start = at;
        var value = Value(isInBrackets: false);
        if (Current != ':')
            return value;
        at = start;
        return Map(Column);
    }

    // The value on the key's own line, or null when there is none.
    private LocatedValue? Beside()
    {
        SkipSpaces();
        return Current is '\n' or '#' or End ? null : Value(isInBrackets: false);
    }

    private LocatedValue Below(int column)
    {
        ToContent();
        return Current != End && Column > column ? Block(Column) : throw Fault("a value, indented more than its key,");
    }

    private LocatedValue Value(bool isInBrackets) => Current switch
    {
        '{' => MapInBrackets(),
        '[' => ListInBrackets(),
        _ => Scalar(isInBrackets),
    };

    private LocatedMap MapInBrackets()
    {
        var map = new LocatedMap(default);
        var start = at;
        Each('}', () =>
        {
            var key = Scalar(isInBrackets: true);
            Take(':', "`:` after the key");
            SkipSpaces();
            Add(map, key, Value(isInBrackets: true));
        });
        map.Place = From(start, at);
        return map;
    }

    private LocatedList ListInBrackets()
    {
        var list = new LocatedList(default);
        var start = at;
        Each(']', () => list.Add(Value(isInBrackets: true)));
        list.Place = From(start, at);
        return list;
    }

    private void Each(char close, Action readOne)
    {
        at++;
        SkipSpaces();
        while (Current != close)
        {
            readOne();
            SkipSpaces();
            if (Current != close)
                Take(',', $"`,` or `{close}`");
            SkipSpaces();
        }
        at++;
    }

    private LocatedScalar Scalar(bool isInBrackets)
    {
        var start = at;
        if (Current is '"' or '\'')
            return Quoted(Current);
        while (!EndsPlain(isInBrackets))
            at++;
        var end = at;
        while (end > start && source.Text[end - 1] == ' ')
            end--;
        if (end == start || source.Text[start] is '&' or '*' or '!' or '|' or '>' or '%' or '@' or '`')
            throw Fault("a plain value of one line");
        return new(From(start, end), Word(start, end));
    }

    private LocatedQuote Quoted(char quote)
    {
        var start = at++;
        while (Current != quote)
        {
            if (Current is '\n' or '\\' or End)
                throw Fault("the closing quote, on the same line and with no escape before it,");
            at++;
        }
        at++;
        return new LocatedQuote(From(start, at), Word(start + 1, at - 1));
    }

    private bool EndsPlain(bool isInBrackets) => Current switch
    {
        '\n' or End => true,
        ':' => Following is ' ' or '\n' or End,
        '#' => source.Text[at - 1] == ' ',
        ',' or '[' or ']' or '{' or '}' => isInBrackets,
        _ => false,
    };

    private string Word(int start, int end) => source.Text.Substring(start, end - start);

    private void Add(LocatedMap map, LocatedScalar key, LocatedValue value)
    {
        if (map.Find(key.Text) is not null)
            throw Fault($"no second `{key.Text}`");
        map.Add(new(key, value));
    }

    private void ToContent()
    {
        while (Current is ' ' or '\n' or '#')
        {
            if (Current == '#')
                at = source.Text.IndexOf('\n', at) is var end and >= 0 ? end : source.Text.Length;
            else
                at++;
        }
    }

    private void SkipSpaces()
    {
        while (Current == ' ')
            at++;
    }

    private void Take(char expected, string what)
    {
        if (Current != expected)
            throw Fault(what);
        at++;
    }

    private Place From(int start, int end) => new(source, start, end - start);

    private InvalidOperationException Fault(string expected) => new($"{From(Math.Min(at, source.Text.Length), 0)}: {expected} is expected here");
}
