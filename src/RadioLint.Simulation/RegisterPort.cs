namespace RadioLint.Simulation;

/// <summary>Registers as programs see them (nRF24L01+ Product Specification 1.0, Table 28 p57-63).</summary>
internal sealed class RegisterPort(Chip chip)
{
    private const int LastChannel = 125;

    /// <summary>A byte of a register, least significant first; 0 beyond its width.</summary>
    public byte Value(byte register, int at)
    {
        // Addresses read back as many bytes as SETUP_AW says.
        if (Register.IsWide(register))
            return at < chip.Settings.Shape.AddressBytes ? chip.Registers.Wide(register)[at] : (byte)0;
        return at > 0 ? (byte)0 : Single(register);
    }

    public void Write(byte register, ReadOnlySpan<byte> bytes, int count)
    {
        var width = Register.IsWide(register) ? 5 : 1;
        if (count == 0 || count > width)
            chip.Note(ViolationKind.RegisterLength, register, count);
        if (count == 0 || IsRefused(register, bytes[0]))
            return;
        if (register == Register.Status)
        {
            WriteStatus(bytes[0]);
            return;
        }
        if (!chip.Modes.IsQuiet)
            chip.Note(ViolationKind.WriteWhileBusy, register, bytes[0]);
        if (Register.IsWide(register))
            bytes[..Math.Min(count, width)].CopyTo(chip.Registers.Wide(register));
        else
            WriteSingle(register, bytes[0]);
        chip.Apply();
    }

    private byte Single(byte register) => register switch
    {
        Register.Config => (byte)(chip.Registers[register] | (chip.Registers[Register.EnAa] != 0 ? 0x08 : 0)),
        Register.Status => chip.Status,
        Register.ObserveTx => (byte)((chip.Sender.Lost << 4) | chip.Sender.Repeats),
        Register.Rpd => chip.Ear.IsDetected ? (byte)1 : (byte)0,
        Register.FifoStatus => FifoStatus(),
        Register.DynPd or Register.Feature when !chip.IsUnlocked => 0,
        _ => chip.Registers[register],
    };

    private byte FifoStatus() => (byte)(
        (chip.Sender.IsReusing ? 0x40 : 0) | (chip.TxFifo.IsFull ? 0x20 : 0) | (chip.TxFifo.IsEmpty ? 0x10 : 0)
        | (chip.RxFifo.IsFull ? 0x02 : 0) | (chip.RxFifo.IsEmpty ? 0x01 : 0));

    private bool IsRefused(byte register, byte value)
    {
        ViolationKind? kind = register switch
        {
            Register.ObserveTx or Register.Rpd or Register.FifoStatus => ViolationKind.ReadOnlyRegister,
            >= Register.FirstTest and <= Register.LastTest => ViolationKind.TestRegister,
            > Register.Feature => ViolationKind.UnmappedRegister,
            Register.DynPd or Register.Feature when !chip.IsUnlocked => ViolationKind.FeatureOff,
            _ => null,
        };
        if (kind is { } found)
            chip.Note(found, register, value);
        return kind is not null;
    }

    // Ones clear (Table 28 p59). Allowed at any time in practice, though Table 20 has no exception.
    private void WriteStatus(byte value)
    {
        if ((value & chip.Registers.Reserved(Register.Status)) != 0)
            chip.Note(ViolationKind.ReservedBit, Register.Status, value);
        chip.Flags &= (byte)~(value & StatusFlags.All);
        chip.Modes.Evaluate();
    }

    private void WriteSingle(byte register, byte value)
    {
        if ((value & chip.Registers.Reserved(register)) != 0)
            chip.Note(ViolationKind.ReservedBit, register, value);
        chip.Registers.Write(register, value);
        var isIllegal = register switch
        {
            Register.SetupAw => (value & 0x03) == 0,
            Register.RfCh => (value & 0x7F) > LastChannel,
            Register.RfSetup => chip.Variant.HasLowRate && (value & 0x28) == 0x28,
            >= Register.RxPwP0 and <= Register.RxPwP5 => (value & 0x3F) > PayloadFifo.LevelBytes,
            _ => false,
        };
        if (isIllegal)
            chip.Note(ViolationKind.IllegalCode, register, value);
        if (register == Register.RfCh)
            chip.Sender.Lost = 0;
    }
}
