using System.Collections.Immutable;
using System.CommandLine;
using RadioLint.Cli.Terminal;

namespace RadioLint.Cli.Commands;

/// <summary>A line to try, and what it does.</summary>
internal readonly record struct Example(string Line, string Does);

/// <summary>One command: how it is parsed, how its page of help goes on after the options, and what it does.</summary>
/// <param name="Command">Name, purpose, arguments and options; the library is used for parsing alone.</param>
/// <param name="Examples">The first thing that its help shows.</param>
/// <param name="Remarks">Paragraphs at the end of its help.</param>
internal sealed record Verb(
    Command Command, ImmutableArray<Example> Examples, ImmutableArray<string> Remarks, Func<ParseResult, Surroundings, ExitStatus> Run);
