using RadioLint.Model;

namespace RadioLint.Planning;

/// <summary>A value for something that the manifest leaves open.</summary>
/// <param name="Target">What it belongs to: the network (null), a <see cref="Node"/> that speaks for its entry, a <see cref="Link"/> or a <see cref="Payload"/>.</param>
/// <param name="Key">The key below that, nested keys joined by a dot: `channel` of the network's `air` is `air.channel`, `retry.delay`, `pins.ce`.</param>
/// <param name="Value">As the manifest spells it.</param>
/// <param name="Reason">Why this one, in one line.</param>
public sealed record Choice(object? Target, string Key, string Value, string Reason);
