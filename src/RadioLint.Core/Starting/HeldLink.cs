using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Starting;

/// <summary>A link as addresses tell it: one radio's TX_ADDR is the address of another's pipe.</summary>
/// <param name="To">Several for a broadcast; none where nobody of the dump listens there.</param>
/// <param name="Length">The pipe's fixed length; null where it is not known.</param>
internal sealed record HeldLink(HeldRadio From, ImmutableArray<HeldRadio> To, Address? Address, int? Length)
{
    /// <summary>True for a payload in the acknowledgement of the opposite link.</summary>
    public bool RidesBack { get; init; }

    /// <summary>True when no address shows it, only that both ends have acknowledgements with payload switched on.</summary>
    public bool IsGuess { get; init; }

    /// <summary>True when somebody who is not in the dump gives payloads back on it.</summary>
    public bool TakesBack => To.IsEmpty && From is { IsAcknowledged: true, CarriesPayloadsBack: true };

    /// <summary>The links of some radios, each followed by what rides back on it.</summary>
    public static ImmutableArray<HeldLink> Of(IReadOnlyList<HeldRadio> radios)
    {
        var links = radios.Where(radio => radio.Target is not null).Select(radio => Of(radio, radios)).SelectMany(link => Riders(link).Prepend(link)).ToList();
        foreach (var sender in radios.Where(radio => radio is { IsAcknowledged: true, CarriesPayloadsBack: true } && !IsExplained(radio, links)))
        {
            if (links.Find(link => link.From == sender && !link.RidesBack) is { TakesBack: false } && Further(sender, radios, links) is { } further)
                links.AddRange(Riders(further).Prepend(further));
        }
        foreach (var giver in radios.Where(radio => radio is { CarriesPayloadsBack: true, AcknowledgesAtPipe0: true }))
        {
            if (!IsExplained(giver, links))
                links.AddRange(Takers(giver, radios, links).Select(taker => new HeldLink(giver, ImmutableArray.Create(taker), null, null) { RidesBack = true, IsGuess = true }));
        }
        return ImmutableArray.CreateRange(links);
    }

    // Giving and taking need the same bit.
    private static bool IsExplained(HeldRadio radio, List<HeldLink> links) => links.Exists(link => link.TakesBack && link.From == radio || link.RidesBack && (link.From == radio || link.To.Contains(radio)));

    // Who takes payloads back though no acknowledgement carries them: those that are set up for it, else one whose own packets are not concerned.
    private static List<HeldRadio> Takers(HeldRadio giver, IReadOnlyList<HeldRadio> radios, List<HeldLink> links)
    {
        bool Sends(HeldRadio radio) => links.Exists(link => !link.RidesBack && link.From == radio && link.To.Contains(giver));
        var takers = radios.Where(radio => radio != giver && radio.CarriesPayloadsBack && Sends(radio)).ToList();
        return takers.Count > 0 ? takers : [.. radios.Where(radio => radio != giver && !Sends(radio)).Take(1)];
    }

    private static HeldLink Of(HeldRadio sender, IReadOnlyList<HeldRadio> radios)
    {
        var receivers = radios.Where(other => other != sender && other.Pipes.Any(pipe => pipe.Address.Equals(sender.Target))).ToList();
        var length = receivers.Select(other => other.Pipes.First(pipe => pipe.Address.Equals(sender.Target)).Length).FirstOrDefault();
        return new(sender, ImmutableArray.CreateRange(receivers), sender.Target, length);
    }

    // A sender that takes payloads back, though the one that it sends to now gives none: from another that does, at a pipe that nobody is set to send to.
    private static HeldLink? Further(HeldRadio sender, IReadOnlyList<HeldRadio> radios, List<HeldLink> links)
    {
        var known = links.Find(link => link.From == sender && !link.RidesBack)!.To;
        foreach (var other in radios.Where(other => other != sender && other.CarriesPayloadsBack && known.All(to => NaturalOrder.Instance.Compare(to.Name, other.Name) < 0)))
        {
            if (other.Pipes.FirstOrDefault(pipe => links.TrueForAll(link => !pipe.Address.Equals(link.Address))) is { } free)
                return new(sender, ImmutableArray.Create(other), free.Address, free.Length) { IsGuess = true };
        }
        return null;
    }

    private static IEnumerable<HeldLink> Riders(HeldLink link) => link.From is { IsAcknowledged: true, CarriesPayloadsBack: true }
        ? link.To.Where(to => to.CarriesPayloadsBack).Select(to => new HeldLink(to, ImmutableArray.Create(link.From), null, null) { RidesBack = true })
        : [];
}
