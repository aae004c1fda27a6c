using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Operations;
using RadioLint.Rules.HostCode;

namespace RadioLint.Analyzers.HostCode.Rules;

/// <summary>RL9018: a pin of the radio is opened by its position on the header where GPIOs are counted, or the other way round.</summary>
internal sealed class OtherPinScheme : HostRule
{
    public override IEnumerable<HostFinding> Check(TypeCode code)
    {
        // A program that has the radio on its own bus; others may use a pin of any number.
        if (!code.Flow.Any(Trait.Radio))
            yield break;
        var (wanted, other) = CountsHeader(code) ? ("HeaderPin", "Number") : ("Number", "HeaderPin");
        var right = PinNumbers.Of(code, wanted).ToList();
        var wrong = PinNumbers.Of(code, other).ToList();
        foreach (var call in code.Operations.OfType<IInvocationOperation>())
        {
            if (call.TargetMethod.Name != "OpenPin" || !Host.Is(call.TargetMethod.ContainingType, code.Host.PinController) || call.Argument(0) is not { } pin || pin.Number() is not { } number)
                continue;
            if (right.Exists(one => one.Number == number) || wrong.Find(one => one.Number == number) is not { Constant: { } taken, Signal: var signal })
                continue;
            var meant = right.Find(one => one.Signal == signal).Constant;
            yield return At(
                HostRules.OtherPinScheme, pin,
                $"{number} is {signal.ToUpperInvariant()} by {(other == "HeaderPin" ? "its position on the header, and this controller counts GPIOs" : "its GPIO, and this controller counts positions on the header")}; use {(meant is null ? $"the number instead of {Host.Call(taken)}" : Host.Call(meant))}") with
            {
                Replacement = meant is null ? null : Host.Code(meant),
            };
        }
    }

    private static bool CountsHeader(TypeCode code) => code.Operations.OfType<IObjectCreationOperation>()
        .Where(creation => Host.Is(creation.Type, code.Host.PinController))
        .SelectMany(creation => creation.Descendants().OfType<IFieldReferenceOperation>())
        .Any(field => field.Field is { Name: "Board", ContainingType.Name: "PinNumberingScheme" });
}
