using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Planning;

/// <summary>What links leave open: pipes where six do not suffice, and what keeps their reports apart.</summary>
internal static class LinkChoices
{
    public static IEnumerable<Choice> Of(Question question) => Pipes(question).Concat(Beats(question.Network));

    private static IEnumerable<Choice> Pipes(Question question) =>
        from use in question.Pipes.Uses
        from link in use.Chosen
        select new Choice(link, "pipe", FormattableString.Invariant($"{use.Pipe}"), use.Senders == 1
            ? $"a pipe of its own: `{use.Receiver.Label}` has more senders than pipes, and others share"
            : FormattableString.Invariant($"`{use.Receiver.Label}` has more senders than pipes: {use.Senders} share this one, and `{link.PayloadName!.Value}` says who sent it"));

    // RL7002's question: links of one period and phase with several senders and nothing that pulls them apart.
    private static IEnumerable<Choice> Beats(Network network)
    {
        var beats = network.Links
            .Where(link => link is { Every.Value.Nanoseconds: > 0, RidesInAcknowledgement: false } && !link.From.IsEmpty)
            .GroupBy(link => (Period: link.Every!.Value, Phase: link.Offset?.Value.Time ?? new Duration(0)));
        foreach (var beat in beats)
        {
            var senders = beat.SelectMany(link => link.From).Distinct().Count();
            if (senders < 2)
                continue;
            foreach (var link in beat)
            {
                if (link.From.Length > 1 && link.Offset is null)
                {
                    var apart = new Duration(link.Every!.Value.Nanoseconds / link.From.Length);
                    yield return new(link, "offset", "spread", FormattableString.Invariant($"{link.From.Length} senders report every {beat.Key.Period}: spread they start {apart} apart"));
                }
                if (link.Jitter is null)
                    yield return new(link, "jitter", "10 %", FormattableString.Invariant($"{senders} senders report every {beat.Key.Period}: without it two that meet once keep meeting while their clocks slide past each other"));
            }
        }
    }
}
