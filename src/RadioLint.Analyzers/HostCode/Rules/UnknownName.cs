using Microsoft.CodeAnalysis.Operations;
using RadioLint.Rules.HostCode;

namespace RadioLint.Analyzers.HostCode.Rules;

/// <summary>RL9003: a report's sender is compared with a node that the manifest does not have. Paths of `[Planned]` are looked at in <see cref="Bindings"/>.</summary>
internal sealed class UnknownName : HostRule
{
    public override IEnumerable<HostFinding> Check(TypeCode code)
    {
        foreach (var call in code.Operations.OfType<IInvocationOperation>())
        {
            if (call.TargetMethod.Name != "IsFrom" || !code.Host.IsSupport(call.TargetMethod.ContainingType) || call.Argument(0) is not { } argument || argument.Text() is not { } written)
                continue;
            var names = code.Host.Constants(network => network.Nodes, "Name").ToList();
            if (names.Exists(name => (string?)name.ConstantValue == written))
                continue;
            var near = RadioLint.Text.Nearest.To(written, names.Select(name => (string)name.ConstantValue!));
            var member = names.Find(name => (string?)name.ConstantValue == near);
            yield return At(
                HostRules.UnknownName, argument,
                $"no node is called `{written}`{(member is null ? "; compare with one of the generated names" : $"; use {Host.Call(member)}, the nearest")}") with
            {
                Replacement = member is null ? null : Host.Code(member),
            };
        }
    }
}
