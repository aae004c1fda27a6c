using RadioLint.Model;
using RadioLint.Radio;

namespace RadioLint.Power;

/// <summary>What a node's program has the radio do between packets.</summary>
public static class RadioHabits
{
    /// <summary>True when the receiver is on all day: asleep or awake, by its word or because things are sent to it and it never sleeps.</summary>
    public static bool IsAlways(NodePlan plan) => plan.Node.Sleep is { } sleep
        ? sleep.Listens?.Value.Always == true || sleep.Radio?.Value is RadioRest.Receiving
        : plan.Listens;

    /// <summary>True when CE is tied so that it stays high while there is nothing to send: standby-II (nRF24L01+ Product Specification 1.0, 6.1.3).</summary>
    public static bool IsCeHigh(Node node) => node.Wiring.Ce?.Use?.Tie is PinTie.High;
}
