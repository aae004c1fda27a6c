using System.Diagnostics.CodeAnalysis;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Rules.Hygiene;

namespace RadioLint.Manifest.Keys;

/// <summary>`D9`, `tied high`, or a map: the short forms keep their place, which rules need.</summary>
internal sealed class PinUseShape(MapShape<PinUse> map) : Shape<PinUse>, IWrapped
{
    public Shape Inner => map;

    public override string Expected => "a pin such as `D9`, `tied high`, `tied low`, `from sck`, or a map with `pin`";

    public override SchemaForm Form => new SchemaForm.AnyOf([new SchemaForm.Scalar(null), map.Form]);

    public override bool TryRead(LocatedValue value, List<Finding> findings, [MaybeNullWhen(false)] out PinUse result)
    {
        switch (value)
        {
            case LocatedMap:
                return map.TryRead(value, findings, out result);
            case LocatedScalar scalar:
                var tie = scalar.Text switch
                {
                    "tied high" => PinTie.High,
                    "tied low" => PinTie.Low,
                    "from sck" => PinTie.FromSck,
                    _ => PinTie.None,
                };
                result = new(scalar.Place, tie is PinTie.None ? new(scalar.Text, scalar.Place) : null) { Tie = tie };
                return true;
            default:
                findings.Add(WrongType.At(value.Place, value.Kind, Expected));
                result = null;
                return false;
        }
    }
}
