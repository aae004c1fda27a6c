using RadioLint.Findings;
using RadioLint.Text;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8202: somebody edited a generated file, or it was never generated.</summary>
public static class EditedFile
{
    public static readonly Descriptor Rule = new("RL8202", Severity.Error, "Generated file edited by hand", "own rule: SHA-256 of the file as it was issued, line ends aside", "0.1");

    public static Finding At(Place file) =>
        new(Rule, file, "this file was edited by hand, or was issued from no manifest", "move the edit into the manifest or a template and delete the file, or use `--force` to overwrite it");
}
