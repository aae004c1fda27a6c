using System.Collections.Immutable;
using RadioLint.Cli.Files;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Planning;
using RadioLint.Text;

namespace RadioLint.Cli.Fill;

/// <summary>What became of one manifest.</summary>
/// <param name="Before">The network as it was read.</param>
/// <param name="Missing">Lines that find no pin.</param>
/// <param name="New">Errors and warnings that the filled manifest has and the other has not.</param>
internal sealed record FillOutcome(ManifestFile File, Network Before, FillPlan Plan, FilledManifest Written, ImmutableArray<string> Missing, ImmutableArray<Finding> New)
{
    /// <summary>True when the demands conflict: then nothing is chosen.</summary>
    public bool IsImpossible => !Plan.Conflict.IsEmpty;

    public bool IsChanged => !Written.Made.IsEmpty;

    /// <summary>True when something stays to be done by hand.</summary>
    public bool IsPartial => !Missing.IsEmpty || !Written.Left.IsEmpty;

    /// <summary>Where a place of the manifest lies once it is filled.</summary>
    public Place Moved(Place place, bool isWritten)
    {
        if (!isWritten || !ReferenceEquals(place.Source, Before.Source))
            return place;
        var shift = Written.Edits.Where(edit => edit.Place.End <= place.Start).Sum(edit => edit.NewText.Length - edit.Place.Length);
        return new(new(place.Source.Name, Written.Text), place.Start + shift, place.Length);
    }
}
