using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Operations;
using RadioLint.Rules.HostCode;

namespace RadioLint.Analyzers.HostCode.Rules;

/// <summary>RL9014: a fixed wait after power up, or after a packet was loaded, is shorter than the radio needs, or many times as long.</summary>
internal sealed class WaitAgainstTiming : HostRule
{
    // nRF24L01+ Product Specification 1.0, Table 16: power down to standby, for crystals of up to 30 mH and of 90 mH.
    private const long LeastStartUs = 1_500;
    private const long SlowestStartUs = 4_500;
    private const long StartTimes = 10;
    private const long LinkTimes = 20;

    public override IEnumerable<HostFinding> Check(TypeCode code)
    {
        foreach (var call in code.Operations.OfType<IInvocationOperation>())
        {
            if (WaitOf(call) is not var (microseconds, place) || Before(call) is not { } before)
                continue;
            if (PowersUp(code, before))
            {
                if (microseconds < LeastStartUs)
                    yield return At(HostRules.WaitAgainstTiming, place, $"{Ms(microseconds)} ms after power up are {Ms(LeastStartUs - microseconds)} ms too few: the radio needs 1.5 ms, and 4.5 ms with some crystals; use ApplyImage, which waits long enough");
                else if (microseconds > SlowestStartUs * StartTimes)
                    yield return At(HostRules.WaitAgainstTiming, place, $"{Ms(microseconds)} ms after power up, and the slowest crystal needs 4.5 ms; use ApplyImage, which waits no longer than needed");
            }
            else if (LoadsPacket(code, before) && Slowest(code) is var (link, longest))
            {
                if (microseconds < longest)
                    yield return Of(place, link, $"{Ms(microseconds)} ms after a packet was loaded, and the radio may repeat it for {Ms(longest)} ms; use {Host.Call(link)}");
                else if (microseconds > longest * LinkTimes)
                    yield return Of(place, link, $"{Ms(microseconds)} ms after a packet was loaded, and the radio is done after {Ms(longest)} ms at the latest; use {Host.Call(link)}");
            }
        }
    }

    private static HostFinding Of(IOperation place, IFieldSymbol link, FormattableString message) => At(HostRules.WaitAgainstTiming, place, message) with
    {
        // A TimeSpan takes microseconds only in later platforms; whole milliseconds, rounded up, fit every overload.
        Replacement = place.Type?.SpecialType is SpecialType.System_Int32 ? $"(int)(({Host.Code(link)} + 999) / 1000)" : $"global::System.TimeSpan.FromMilliseconds(({Host.Code(link)} + 999) / 1000)",
    };

    private static (long Microseconds, IOperation Place)? WaitOf(IInvocationOperation call)
    {
        if (call.TargetMethod is not ({ Name: "Sleep", ContainingType.Name: "Thread" } or { Name: "Delay", ContainingType.Name: "Task" }) || call.Argument(0)?.Bare() is not { } time)
            return null;
        if (time.Number() is { } milliseconds)
            return (milliseconds * 1_000, time);
        if (time is not IInvocationOperation { TargetMethod: { ContainingType.Name: "TimeSpan" } made } from || from.Arguments.Length == 0 || Amount(from.Argument(0)) is not { } amount)
            return null;
        decimal? unit = made.Name switch { "FromMicroseconds" => 1m, "FromMilliseconds" => 1_000m, "FromSeconds" => 1_000_000m, "FromMinutes" => 60_000_000m, _ => null };
        return unit is { } scale && Math.Abs(amount) < 1e9m ? ((long)(amount * scale), time) : null;
    }

    private static decimal? Amount(IOperation? operation) => operation?.ConstantValue is { HasValue: true, Value: { } value } && value is int or long or double && Convert.ToDouble(value, System.Globalization.CultureInfo.InvariantCulture) is > -1e9 and < 1e9
        ? Convert.ToDecimal(operation.ConstantValue.Value, System.Globalization.CultureInfo.InvariantCulture)
        : null;

    // The statement just before; what happens on CE in between does not count.
    private static IOperation? Before(IInvocationOperation wait)
    {
        var statement = wait.Around().FirstOrDefault(outer => outer is IExpressionStatementOperation);
        if (statement?.Parent is not IBlockOperation block)
            return null;
        var own = block.Operations.IndexOf(statement);
        // Between two writes to a pin it is the pulse on CE, which needs 10 us alone.
        if (own > 0 && own + 1 < block.Operations.Length && IsOnPin(block.Operations[own - 1]) && IsOnPin(block.Operations[own + 1]))
            return null;
        return block.Operations.Take(own).LastOrDefault(one => !IsOnPin(one));
    }

    private static bool IsOnPin(IOperation statement) =>
        statement is IExpressionStatementOperation { Operation: IInvocationOperation { TargetMethod.ContainingType.Name: "GpioController" or "GpioPin" } };

    private static bool PowersUp(TypeCode code, IOperation statement) => Frames(code, statement).Any(bytes =>
        bytes.Length > 1 && bytes[0] == RadioCommands.WRegister && (bytes[1] & RadioCommands.PwrUp) != 0);

    private static IEnumerable<byte[]> Frames(TypeCode code, IOperation statement) =>
        SpiFrames.Written(code).Where(frame => statement.DescendantsAndSelf().Contains(frame.Call)).Select(frame => frame.Bytes);

    private static bool LoadsPacket(TypeCode code, IOperation statement) => statement.DescendantsAndSelf().OfType<IInvocationOperation>().Any(call =>
        Host.Is(call.TargetMethod.ContainingType, code.Host.SpiDevice) && call.Instance is { } device && code.Flow.Is(device, Trait.Radio)
        && call.Arguments.Any(argument => code.Flow.Is(argument.Value, Trait.LoadsPacket) || argument.Value.Bytes() is [RadioCommands.WTxPayload or RadioCommands.WTxPayloadNoAck, ..]));

    private static (IFieldSymbol Link, long Longest)? Slowest(TypeCode code)
    {
        var own = code.OwnNodes().SelectMany(one => one.Node.GetMembers("Name")).OfType<IFieldSymbol>().Select(name => name.ConstantValue as string).ToList();
        var links = code.Host.Networks.SelectMany(network => network.Links)
            .Where(link => link.GetMembers("From").FirstOrDefault() is IFieldSymbol { ConstantValue: string from } && own.Contains(from))
            .SelectMany(link => link.GetMembers("LongestUs")).OfType<IFieldSymbol>()
            .OrderByDescending(one => Operations.Whole(one.ConstantValue)).ToList();
        return links.Count == 0 ? null : (links[0], Operations.Whole(links[0].ConstantValue)!.Value);
    }

    private static string Ms(long microseconds) => (microseconds / 1_000m).ToString("0.###", System.Globalization.CultureInfo.InvariantCulture);
}
