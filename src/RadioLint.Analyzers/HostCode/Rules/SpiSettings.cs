using System.Globalization;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Operations;
using RadioLint.Rules.HostCode;

namespace RadioLint.Analyzers.HostCode.Rules;

/// <summary>RL9016: the radio's bus is opened in another mode than 0, or with a clock that the radio does not stand.</summary>
internal sealed class SpiSettings : HostRule
{
    private const long FastestHertz = 10_000_000;

    public override IEnumerable<HostFinding> Check(TypeCode code)
    {
        foreach (var assignment in Assignments(code, "Mode"))
        {
            if (assignment.Value.ConstantValue is { HasValue: true, Value: int mode and not 0 })
            {
                yield return At(HostRules.WrongSpiSettings, assignment.Value, $"the radio's SPI is opened in mode {mode}, and the radio knows mode 0 alone; use SpiMode.Mode0") with
                {
                    Replacement = "global::System.Device.Spi.SpiMode.Mode0",
                };
            }
        }
        foreach (var assignment in Assignments(code, "ClockFrequency"))
        {
            var (limit, part) = Limit(code);
            if (assignment.Value.Number() is not { } hertz || hertz <= limit)
                continue;
            var planned = code.OwnNodes().SelectMany(own => own.Node.GetMembers("SpiClockHz")).FirstOrDefault();
            yield return At(
                HostRules.WrongSpiSettings, assignment.Value,
                $"the radio's SPI clock is {MHz(hertz)} MHz, {MHz(hertz - limit)} MHz above the {MHz(limit)} MHz of {part}; use {(planned is null ? "less" : Host.Call(planned))}") with
            {
                Replacement = planned is null ? null : Host.Code(planned),
            };
        }
    }

    /// <summary>What a property of a radio's SPI settings is set to.</summary>
    public static IEnumerable<ISimpleAssignmentOperation> Assignments(TypeCode code, string property)
    {
        foreach (var assignment in code.Operations.OfType<ISimpleAssignmentOperation>())
        {
            if (assignment.Target is not IPropertyReferenceOperation reference || reference.Property.Name != property || !Host.Is(reference.Property.ContainingType, code.Host.SpiSettings))
                continue;
            var isOfRadio = reference.Instance is IInstanceReferenceOperation
                ? assignment.Around().OfType<IObjectCreationOperation>().FirstOrDefault() is { } creation && IsOfRadio(code, creation)
                : code.Flow.Is(reference.Instance, Trait.Radio);
            if (isOfRadio)
                yield return assignment;
        }
    }

    private static bool IsOfRadio(TypeCode code, IObjectCreationOperation creation) => Flow.Target(creation) is { } target && code.Flow.Is(target, Trait.Radio);

    private static string MHz(long hertz) => (hertz / 1e6m).ToString("0.######", CultureInfo.InvariantCulture);

    // The slowest of the parts that the computer may have.
    private static (long Hertz, string Part) Limit(TypeCode code)
    {
        var (limit, name) = (FastestHertz, "nRF24L01+");
        foreach (var (network, type) in code.OwnNodes())
        {
            if (network.NodeOf(type)?.Part is { SpiFastest: { } fastest } part && fastest.Value.Hertz < limit)
                (limit, name) = (fastest.Value.Hertz, part.Name);
        }
        return (limit, name);
    }
}
