using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Text;

namespace RadioLint.Readback;

/// <summary>Where the manifest states what a register holds; where the tool chose it, what it was chosen for.</summary>
public static class PlannedPlaces
{
    private const int CrcBits = 0x0C;
    private const int IrqBits = 0x70;
    private const int TestBits = 0x90;

    /// <summary>The place, and the key in words.</summary>
    /// <param name="bits">The bits of the register that matter.</param>
    public static (Place Place, string Key) Of(NodePlan plan, byte register, int bits)
    {
        var (node, air) = (plan.Node, plan.Node.Air);
        var stated = register switch
        {
            Radio.Registers.Config when (bits & CrcBits) != 0 => (air.Crc?.Place, "`crc`"),
            Radio.Registers.Config when (bits & IrqBits) != 0 => (node.Wiring.Irq?.Use?.Place, "the use of IRQ"),
            Radio.Registers.Config => (Links(plan), "the role"),
            Radio.Registers.EnAa => (air.Acknowledge?.Place, "`acknowledge`"),
            Radio.Registers.EnRxAddr => (Links(plan), "the set of open pipes"),
            Radio.Registers.SetupAw => (air.AddressWidth?.Place, "`address-width`"),
            Radio.Registers.SetupRetr => (plan.Retry?.Written ?? Links(plan), "`retry`"),
            Radio.Registers.RfCh => (air.Channel?.Place, "`channel`"),
            Radio.Registers.RfSetup when (bits & TestBits) != 0 && node.Test is { } test => (test.Place, "`test`"),
            Radio.Registers.RfSetup when (bits & RateBits(plan)) == 0 => (node.Power?.Place, "`power`"),
            Radio.Registers.RfSetup => (air.Rate?.Place, "`rate`"),
            Radio.Registers.TxAddr => (plan.Sends.IsEmpty ? null : plan.Sends[0].AddressPlace, "the address"),
            >= Radio.Registers.RxAddrP0 and < Radio.Registers.TxAddr => (OfPipe(plan, register - Radio.Registers.RxAddrP0), "the address"),
            >= Radio.Registers.RxPwP0 and <= Radio.Registers.RxPwP0 + 5 or Radio.Registers.Dynpd => (air.PayloadLength?.Place, "`payload-length`"),
            _ => ((Place?)Links(plan), "the link"),
        };
        return (stated.Item1 ?? node.NamePlace, stated.Item2);
    }

    private static int RateBits(NodePlan plan) => plan.Node.Part?.SetupRegister.RateMask.Value ?? 0;

    private static Place? OfPipe(NodePlan plan, int number) =>
        plan.Pipes.FirstOrDefault(pipe => pipe.Number == number)?.Place ?? (plan.Sends.IsEmpty ? plan.Pipes.FirstOrDefault()?.Place : plan.Sends[0].AddressPlace);

    private static Place? Links(NodePlan plan) => plan.Node.OwnPipes is not null ? plan.Node.PipesPlace
        : plan.Receives.Concat(plan.Sends).FirstOrDefault()?.Link.Place;
}
