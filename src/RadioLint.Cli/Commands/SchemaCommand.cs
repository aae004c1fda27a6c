using System.Collections.Immutable;
using System.CommandLine;
using RadioLint.Manifest;

namespace RadioLint.Cli.Commands;

/// <summary>`schema`: the JSON Schema of the manifest, for completion in editors.</summary>
internal static class SchemaCommand
{
    public static Verb Make() => new(
        new Command("schema", "prints the JSON Schema of the manifest, for completion in editors"), Examples, Remarks, (_, around) =>
        {
            around.Results.Write(JsonSchema.Text());
            return ExitStatus.Passed;
        });

    private static readonly ImmutableArray<Example> Examples = ImmutableArray.Create(
        new Example("radiolint schema > radiolint.schema.json", "then point the editor's YAML or JSON support at that file"));

    private static readonly ImmutableArray<string> Remarks = ImmutableArray.Create(
        "The schema comes from the tables that the reader uses. It knows keys and spelling; what fits together, only `radiolint check` knows.");
}
