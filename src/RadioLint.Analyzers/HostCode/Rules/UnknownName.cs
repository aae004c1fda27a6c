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
            var near = RadioLint.Text.Nearest.AllTo(written, names.Select(name => (string)name.ConstantValue!));
            var members = names.FindAll(name => near.Contains((string)name.ConstantValue!));
            yield return At(
                HostRules.UnknownName, argument,
                $"no node is called `{written}`{(members.Count == 0 ? "; compare with one of the generated names" : $"; use {Host.Call(members[0])}, the nearest")}") with
            {
                Replacement = members.Count == 0 ? null : HostFinding.OneOf(members.Select(Host.Code)),
            };
        }
    }
}
