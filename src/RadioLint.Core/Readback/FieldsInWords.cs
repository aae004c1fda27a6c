namespace RadioLint.Readback;

/// <summary>Differences of a register told by its fields: names and values, never the hex of the whole.</summary>
public static class FieldsInWords
{
    /// <summary>`PRIM_RX is 0 (transmitter), planned 1 (receiver)`, one after the other.</summary>
    /// <param name="bits">The bits of the register that matter; all that differ when absent.</param>
    public static string Of(RegisterDifference one, int bits = 0xFF)
    {
        var (found, planned) = (one.Listed.Value, one.Expected.Planned[0]);
        var fields = RegisterMap.At(one.Address)!.Fields.Where(field => (field.Mask & one.Bits & bits) != 0);
        return string.Join("; ", fields.Select(field => FormattableString.Invariant(
            $"{field.Name} is {field.In(found)} ({field.Says(field.In(found))}), planned {field.In(planned)} ({field.Says(field.In(planned))})")));
    }
}
