using RadioLint.Findings;
using RadioLint.Text;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8008: an included file is missing, includes itself, or lies outside the manifest's folder.</summary>
public static class IncludeFault
{
    public static readonly Descriptor Rule = new(
        "RL8008", Severity.Error, "Included file missing, circular or outside", "files below the manifest's folder, at most 64 (own bound)", "0.1");

    /// <summary>True for an absolute path, a drive, a backslash or a step upwards.</summary>
    public static bool Escapes(string path) =>
        path.Length == 0 || path[0] == '/' || path.IndexOfAny(['\\', ':']) >= 0 || path.Split('/').Any(part => part is ".." or "." or "");

    public static Finding Missing(Place place, string file) =>
        new(Rule, place, $"there is no file `{file}` below the manifest's folder", "mend the name, or add the file");

    public static Finding Outside(Place place, string file) =>
        new(Rule, place, $"`{file}` is not a plain path below the manifest's folder", "move the file below the manifest's folder and write its path with `/`");

    public static Finding Circle(Place place, string file) =>
        new(Rule, place, $"`{file}` includes itself, directly or through others", "remove one of the `include` lines");

    public static Finding Unreadable(Place place, string file) =>
        new(Rule, place, $"`{file}` cannot be read as a manifest", "check that file first: `radiolint check` says what is wrong in it");

    public static Finding TooMany(Place place, int most) =>
        new(Rule, place, FormattableString.Invariant($"more than {most} files are included"), "join some of them");
}
