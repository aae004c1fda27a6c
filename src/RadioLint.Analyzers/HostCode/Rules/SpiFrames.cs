using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Operations;
using RadioLint.Rules.HostCode;

namespace RadioLint.Analyzers.HostCode.Rules;

/// <summary>RL9004 and RL9005 on SPI: a register is written by hand with what the node's image holds, or with something else.</summary>
internal sealed class SpiFrames : HostRule
{
    public override IEnumerable<HostFinding> Check(TypeCode code)
    {
        var own = code.OwnNodes().ToList();
        foreach (var (call, bytes, place) in Written(code))
        {
            // Writing STATUS clears flags, which a program does again and again.
            if (bytes.Length < 2 || (bytes[0] & RadioCommands.CommandMask) != RadioCommands.WRegister || (bytes[0] & RadioCommands.RegisterMask) == RadioCommands.Status)
                continue;
            foreach (var (network, type) in own)
            {
                if (network.NodeOf(type) is not { } node || network.Network.Plan.Of(node).Image is not { } image)
                    continue;
                // CONFIG stands there twice: each is right in its moment.
                var planned = image.Frames.Where(frame => frame.Bytes[0] == bytes[0]).Select(frame => frame.Bytes.ToArray()).ToList();
                if (planned.Count == 0)
                    continue;
                var isPlanned = planned.Exists(frame => frame.SequenceEqual(bytes));
                if (!isPlanned && (bytes[0] & RadioCommands.RegisterMask) == 0 && IsState(bytes[1], planned))
                    continue;
                // What was generated may stand in it.
                if (isPlanned && LiteralOfThePlan.IsOfPlan(code.Host, place))
                    continue;
                yield return isPlanned
                    ? At(HostRules.LiteralRepeatsPlan, place, $"this frame repeats one of the register image of `{node.Name}`; use {Host.Call(type)}.Image with ApplyImage")
                    : At(HostRules.LiteralContradictsPlan, place, $"register {bytes[0] & RadioCommands.RegisterMask:X2} is written with {Hex(bytes.Skip(1))}, and the plan of `{node.Name}` has {Hex(planned[0].Skip(1))}; use {Host.Call(type)}.Image with ApplyImage");
                break;
            }
        }
    }

    /// <summary>Frames of known bytes that go to a radio.</summary>
    public static IEnumerable<(IInvocationOperation Call, byte[] Bytes, IOperation Place)> Written(TypeCode code)
    {
        foreach (var call in code.Operations.OfType<IInvocationOperation>())
        {
            if (!Host.Is(call.TargetMethod.ContainingType, code.Host.SpiDevice) || call.Instance is not { } device || call.Arguments.Length == 0 || !code.Flow.Is(device, Trait.Radio))
                continue;
            var argument = call.Argument(0)!;
            if (argument.Bytes() is { } bytes)
                yield return (call, bytes, argument.Bare());
            else if (code.Flow.ValuesOf(argument) is [{ } only] && only.Bytes() is { } kept)
                yield return (call, kept, only);
        }
    }

    // Power and direction change while a node works; the rest of CONFIG does not.
    private static bool IsState(byte written, List<byte[]> planned) => planned.Exists(frame => ((frame[1] ^ written) & ~0x03) == 0);

    private static string Hex(IEnumerable<byte> bytes) => BitConverter.ToString(bytes.ToArray()).Replace("-", " ");
}
