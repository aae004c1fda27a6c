using RadioLint.Findings;

namespace RadioLint.Manifest;

/// <summary>Ends the reading of one file: what follows has no meaning.</summary>
internal sealed class UnreadableException(Finding finding, bool isSaid = false) : Exception(finding.Message)
{
    /// <summary>True when the finding stands among the others already.</summary>
    public bool IsSaid { get; } = isSaid;

    public Finding Finding { get; } = finding;
}
