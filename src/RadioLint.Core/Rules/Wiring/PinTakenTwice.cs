using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1002: two things use one pin.</summary>
public sealed class PinTakenTwice() : Rule(new(
    "RL1002", Severity.Error, "One pin carries two signals", "a pin carries one signal; SCK, MOSI and MISO may be shared by devices on the bus (own rule)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Board is null)
                continue;
            var users = new Dictionary<string, User>(StringComparer.Ordinal);
            foreach (var user in Users(node))
            {
                if (!users.TryGetValue(user.Pin.Port, out var first))
                {
                    users.Add(user.Pin.Port, user);
                    continue;
                }
                // Two chip selects on one pin are RL1201's.
                if (first.IsSelect && user.IsSelect)
                    continue;
                // A customary pin is written nowhere: then the other use is what to point at.
                var (told, other) = user.IsCustomary ? (first, user) : (user, first);
                var free = FreePins.For(node, told.Moves ?? other.Moves ?? "csn").FirstOrDefault();
                var moved = told.Moves is not null ? told : other.Moves is not null ? other : null;
                yield return At(
                    node, told.Place, $"{user.Pin.Both} of `{node.Label}` carries both {first.What} and {user.What}",
                    free is null ? (FormattableString)$"move one of the two to another pin" : $"move one of the two, for instance to {free.Label}",
                    free is not null && moved is not null ? [Offer($"Use {free.Label} for {moved.What}", moved.Place, free.Label)] : []) with
                {
                    Subject = (node, user.Pin.Port, user.What),
                    Related = ImmutableArray.Create(new RelatedPlace(other.Place, $"{other.What} stands here")),
                };
            }
        }
    }

    private static IEnumerable<User> Users(Node node)
    {
        var board = node.Board!;
        // By name: what is said must not depend on the order of the map.
        foreach (var (name, use) in board.Reserved.OrderBy(reserved => reserved.Pin.Text, StringComparer.Ordinal))
        {
            if (board.Find(name.Text) is { } pin)
                yield return new(pin, $"`{use}`", name.Place);
        }
        foreach (var use in node.AlsoUses.OrderBy(use => use.Name.Text, StringComparer.Ordinal))
        {
            if (board.Find(use.Name.Text) is { } pin)
                yield return new(pin, $"`{use.Use}`", use.Name.Place) { Moves = use.IsInput?.Value == true ? "in" : "csn" };
        }
        foreach (var other in node.SharesSpi)
        {
            if (other.Select?.Pin is { } select && board.Find(select.Value) is { } pin)
                yield return new(pin, $"`select` of `{other.Part?.Value ?? "a device"}`", select.Place) { IsSelect = true, Moves = "csn" };
        }
        // The radio's own lines last: they are what a finding points at.
        foreach (var line in node.Wiring.Lines())
        {
            if (line.Pin is not { } pin)
                continue;
            yield return new(pin, $"`{line.Signal}`", line.Place)
            {
                IsSelect = line.Signal == "csn",
                IsCustomary = line.IsCustomary,
                Moves = line.Signal is "ce" or "csn" or "irq" ? line.Signal : null,
            };
        }
    }

    /// <summary>What is on a pin.</summary>
    private sealed record User(BoardPin Pin, string What, Place Place)
    {
        public bool IsSelect { get; init; }
        public bool IsCustomary { get; init; }

        /// <summary>What another pin must be able to do; null where the use cannot simply move.</summary>
        public string? Moves { get; init; }
    }
}
