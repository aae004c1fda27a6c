using System.CommandLine;
using RadioLint.Cli.Checking;
using RadioLint.Cli.Files;
using RadioLint.Cli.Mend;
using RadioLint.Cli.Output;
using RadioLint.Cli.Terminal;
using RadioLint.Text;

namespace RadioLint.Cli.Commands;

/// <summary>The options of `check` that change files.</summary>
internal sealed class MendOptions
{
    private readonly Option<bool> fix = new("--fix") { Description = "make the safe edits: wording and layout, never what goes on the air, on a wire or into a payload" };

    private readonly Option<bool> suggested = new("--suggested") { Description = "with --fix: make the offered edits too; read what they change" };

    private readonly Option<bool> dryRun = new("--dry-run") { Description = "with --fix: change no file, print the difference in the form that `patch` takes" };

    public void AddTo(Command command)
    {
        command.Add(fix);
        command.Add(suggested);
        command.Add(dryRun);
    }

    /// <summary>The option that mends, where it is given.</summary>
    public string? Wanted(ParseResult parsed) => new[] { fix, suggested, dryRun }.FirstOrDefault(parsed.Has)?.Name;

    /// <summary>Makes the edits that are asked for; null when none are.</summary>
    public Mender? Read(ParseResult parsed, CheckTerms terms, Surroundings around)
    {
        if (!parsed.Has(fix))
        {
            if (parsed.Has(suggested) || parsed.Has(dryRun))
                throw new CannotWorkException($"`{(parsed.Has(suggested) ? "--suggested" : "--dry-run")}` says how to mend, and nothing is to be mended", "add `--fix`");
            return null;
        }
        return new(new(terms, around, parsed.Has(suggested) ? FixGrade.Offered : FixGrade.Safe), parsed.Has(dryRun), around);
    }
}

/// <summary>Mends manifests one by one before they are checked.</summary>
/// <param name="isDry">True when no file is changed.</param>
internal sealed class Mender(MendRun run, bool isDry, Surroundings around)
{
    public bool IsDry => isDry;

    /// <summary>The bytes to check: mended, or as they are.</summary>
    public byte[] Mend(ManifestFile file, byte[] bytes)
    {
        if (file.Path is null && !isDry)
            throw new CannotWorkException("`--fix` changes files, and standard input is none", "add `--dry-run` to see the difference");
        if (run.Mend(file, bytes) is not { } mended)
            return bytes;
        if (isDry)
            UnifiedDiff.Write(around.Results, file.Name, mended.Before, mended.After);
        else
            Write(mended, bytes);
        var verb = isDry ? "would be made" : "made";
        around.Note($"{file.Name}: {TextReport.Count(mended.Made.Length, "edit")} {verb}: {string.Join(", ", mended.Made.Select(one => $"{one.Finding.Rule.Id} {one.Fix.Title}"))}");
        return MendRun.Bytes(mended, bytes);
    }

    private static void Write(MendedFile mended, byte[] bytes)
    {
        try
        {
            MendRun.Write(mended, bytes);
        }
        catch (Exception fault) when (Trouble.IsOfFiles(fault))
        {
            throw new CannotWorkException($"cannot write `{mended.File.Name}`: {Trouble.Words(fault)}");
        }
    }
}
