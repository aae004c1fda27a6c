using RadioLint.Model;

namespace RadioLint.Analyzers.Generation;

/// <summary>The radio's lines by every name that a pin goes by, because numbering schemes differ.</summary>
internal static class PinWriter
{
    public static void Write(CodeWriter code, Node node)
    {
        var lines = node.Wiring.Lines().Where(line => line.Pin is not null || line.Tie is not PinTie.None).ToList();
        if (lines.Count == 0)
            return;
        code.Summary("The radio's lines.");
        using (code.Block("public static class Pins"))
        {
            foreach (var line in lines)
                Write(code, line);
        }
    }

    private static void Write(CodeWriter code, Line line)
    {
        var (name, signal) = (CSharp.Pascal(line.Signal), CSharp.Doc(line.Signal.ToUpperInvariant()));
        if (line.Tie is not PinTie.None)
        {
            var tie = line.Tie switch { PinTie.High => "tied high", PinTie.Low => "tied low", _ => "made from SCK" };
            code.Constant("string", name, CSharp.Quoted(tie), $"{signal} is {tie} and has no pin.");
        }
        if (line.Pin is not { } pin)
            return;
        code.Constant("string", name, CSharp.Quoted(pin.Label), $"{signal} as printed on the board.");
        if (pin.Port != pin.Label)
            code.Constant("string", name + "Port", CSharp.Quoted(pin.Port), $"{signal} by the chip's name.");
        if (pin.PrintedNumber is { } number)
            code.Constant("int", name + "Number", CSharp.Number(number), $"{signal} by {(pin.Number is null ? "the number printed" : "the number of the GPIO")}.");
        if (pin.HeaderPin is { } position)
            code.Constant("int", name + "HeaderPin", CSharp.Number(position), $"{signal} by the position on the 40-pin header.");
    }
}
