using System.Text;
using RadioLint.Cli.Commands;
using RadioLint.Cli.Terminal;

namespace RadioLint.Cli.Tests.Support;

/// <summary>What a command in this process said.</summary>
internal sealed record CommandRun(ExitStatus Status, string Results, string Notes)
{
    /// <summary>A day on which the examples were written; nothing in the tests depends on the real one.</summary>
    public static readonly DateTime Day = new(2026, 6, 1);

    public static CommandRun Of(string folder, params string[] args) => Of(folder, around => around, args);

    public static CommandRun Of(string folder, Func<Surroundings, Surroundings> change, params string[] args)
    {
        using var results = new MemoryStream();
        var notes = new StringWriter { NewLine = "\n" };
        var around = change(new()
        {
            Input = Stream.Null,
            Results = Surroundings.Writer(results),
            Notes = notes,
            Folder = folder,
            Today = () => Day,
        });
        var status = Verbs.Run(args, around);
        return new(status, Encoding.UTF8.GetString(results.ToArray()), notes.ToString());
    }

    /// <summary>Everything at once, for snapshots.</summary>
    public override string ToString() => $"{Results}--- notes\n{Notes}--- status {(int)Status}\n";
}
