using RadioLint.Emit;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Rules.Hygiene;
using RadioLint.Text;

namespace RadioLint.Cli.Emit;

/// <summary>What the output folder shows: files that are stale, edited or left over, each as a finding in the file itself.</summary>
/// <param name="network">The manifest's network, for nodes whose file is missing.</param>
/// <param name="last">What was issued before; null when nothing was.</param>
/// <param name="now">What would be issued.</param>
internal sealed class FileFindings(Network network, Issue? last, Issue now)
{
    /// <param name="report">What the run would do.</param>
    /// <param name="stale">The files that are to be told of as stale.</param>
    public IEnumerable<Finding> Of(EmitReport report, IEnumerable<string> stale)
    {
        foreach (var path in stale)
            yield return OutputFolder.ReadText(path) is { } text ? Older(path, text) : Missing(path);
        foreach (var path in report.Edited)
            yield return EditedFile.At(Start(path, OutputFolder.ReadText(path) ?? ""));
        foreach (var path in report.LeftOver)
            yield return LeftOverFile.At(Start(path, OutputFolder.ReadText(path) ?? ""));
    }

    private Finding Missing(string path) =>
        StaleFile.Missing(NodeOf(path)?.NamePlace ?? network.Name?.Place ?? network.Place.FirstLine, path);

    private Finding Older(string path, string text)
    {
        var file = NameOf(path);
        var (before, present) = (DigestOf(last?.Now, file), DigestOf(now.Now, file));
        var at = before is null ? -1 : text.IndexOf(before, StringComparison.Ordinal);
        var place = at < 0 ? Start(path, text) : new Place(new(path, text), at, before!.Length);
        RelatedPlace? node = NodeOf(path) is { } its ? new(its.NamePlace, $"it is the header of `{its.Name}`") : null;
        return StaleFile.Older(place, at >= 0 && present is not null ? (before!, present) : null, node);
    }

    private Node? NodeOf(string path) => NameOf(path) is var file ? network.Nodes.FirstOrDefault(node => NodeHeader.FileNameOf(C.Identifier(node.Name)) == file) : null;

    private static string? DigestOf(IssuedState? state, string file) => state?.Nodes.FirstOrDefault(node => node.File == file)?.Digest;

    private static string NameOf(string path) => path[(path.LastIndexOf('/') + 1)..];

    private static Place Start(string path, string text) => new Place(new(path, text), 0, text.Length).FirstLine;
}
