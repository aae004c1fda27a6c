using System.Globalization;
using Proof;
using RadioLint.Simulation;

namespace RadioLint.Tests.Proof.Host;

/// <summary>What differs from the second encoder's expectation, each kind by itself.</summary>
public sealed record Verdict(IReadOnlyList<string> Registers, IReadOnlyList<string> Violations, IReadOnlyList<string> Frames)
{
    public bool IsClean => Registers.Count + Violations.Count + Frames.Count == 0;

    public override string ToString() => string.Join("\n", [.. Registers, .. Violations, .. Frames]);
}

/// <summary>Runs a node's header from a dirty radio and compares registers, violations and the exact list of frames with what is expected.</summary>
public sealed class Trial(HostProgram program, EmittedNode node, Expected expected)
{
    /// <summary>The first way in which anything differs, over all states to begin in and all roles; clean when nothing does.</summary>
    public Verdict All()
    {
        foreach (var dirt in Dirt.Of(expected))
        {
            var board = dirt.Board();
            var verdict = Configure(dirt, board, null);
            foreach (var role in expected.Roles.Keys.TakeWhile(_ => verdict.IsClean))
                verdict = Role(dirt, board, role, null);
            if (!verdict.IsClean)
                return verdict;
        }
        return new([], [], []);
    }

    /// <summary>Configures, one byte of the table replaced where one is given.</summary>
    public Verdict Configure(Dirt dirt, Board board, (int At, byte Instead)? change)
    {
        var ended = program.Run(node, "configure", board, change is { } one ? ("frames", one.At, one.Instead) : null);
        var isOpened = expected.Hidden is not null || dirt.IsUnlocked;
        var wanted = Start(dirt).Concat(expected.Frames).Select(Convert.ToHexString).ToList();
        var registers = Registers(dirt, board.Chip, expected.Frames, isOpened);
        if (board.Chip.Status != 0x0E || board.Chip.Read(Register.FifoStatus) != 0x11)
            registers.Add(string.Create(CultureInfo.InvariantCulture, $"STATUS is {board.Chip.Status:X2}, FIFO_STATUS {board.Chip.Read(Register.FifoStatus):X2}"));
        if (board.Chip.State != AtRest())
            registers.Add($"the radio is in {board.Chip.State}, not in {AtRest()}");
        var violations = Violations(board, ended, [false], Unavoidable(dirt, isOpened));
        var frames = Differences(board, wanted);
        if (change is null && program.Run(node, "verify", board) is not 0)
            registers.Add("its own read-back finds a difference");
        board.Forget();
        return new(registers, violations, frames);
    }

    /// <summary>Takes up a role after configuring.</summary>
    public Verdict Role(Dirt dirt, Board board, string role, (int At, byte Instead)? change)
    {
        var ended = program.Run(node, role, board, change is { } one ? (role + "_frames", one.At, one.Instead) : null);
        var wanted = expected.Roles[role];
        // Those before it count too: each role writes whatever another may have changed.
        var registers = Registers(dirt, board.Chip, [.. expected.Frames, .. expected.Roles.TakeWhile(other => other.Key != role).SelectMany(other => other.Value), .. wanted], true);
        // The contract alone cannot leave a role while CE is tied high; the link layer powers down for it.
        var violations = expected.Node.HasTiedCe ? [] : Violations(board, ended, role == "listen" ? [false, true] : [false], []);
        var frames = Differences(board, [.. wanted.Select(Convert.ToHexString)]);
        board.Forget();
        return new(registers, violations, frames);
    }

    // The earlier part: FEATURE is tried, read back, and opened only where it did not take.
    private byte[][] Start(Dirt dirt)
    {
        if (expected.Hidden is not { } feature)
            return [];
        byte[][] tried = [expected.Frames[0], [0x20 | Register.Feature, feature], [Register.Feature, 0xFF]];
        return dirt.IsUnlocked ? tried : [.. tried, [Command.Activate, Command.ActivateKey]];
    }

    private List<string> Unavoidable(Dirt dirt, bool isOpened)
    {
        var list = new List<string>();
        // With CE tied high the first write reaches a radio that listens; nothing can come before it.
        if (expected.Node.HasTiedCe)
            list.Add("WriteWhileBusy 00");
        if (expected.Hidden is not null && !dirt.IsUnlocked)
            list.Add("FeatureOff 1D");
        if (!isOpened)
            list.AddRange(["FeatureOff 1C", "FeatureOff 1D"]);
        return list;
    }

    private ChipState AtRest() => !expected.Node.HasTiedCe ? ChipState.Standby1 : expected.Listens ? ChipState.Rx : ChipState.Standby2;

    private static List<string> Registers(Dirt dirt, Chip chip, IReadOnlyList<byte[]> frames, bool isOpened)
    {
        var faults = new List<string>();
        foreach (var register in Dirt.Writable)
        {
            if (register >= Register.DynPd && !isOpened)
                continue;
            var wanted = (byte[])[.. dirt.Held[register]];
            foreach (var frame in frames.Where(frame => frame[0] == (0x20 | register)))
                frame.AsSpan(1).CopyTo(wanted);
            var number = wanted.Aggregate((0UL, 0), (sum, one) => (sum.Item1 | ((ulong)one << sum.Item2), sum.Item2 + 8)).Item1;
            if (chip.ReadWide(register) != number)
                faults.Add(string.Create(CultureInfo.InvariantCulture, $"register {register:X2} holds {chip.ReadWide(register):X}, not {number:X}"));
        }
        return faults;
    }

    private static List<string> Violations(Board board, int? ended, bool[] levels, List<string> unavoidable)
    {
        var noted = board.Chip.Violations.Select(one => string.Create(CultureInfo.InvariantCulture, $"{one.Kind} {one.Subject:X2}")).ToList();
        var faults = noted.SequenceEqual(unavoidable) ? [] : new List<string> { $"violations: {string.Join(", ", noted)}; unavoidable: {string.Join(", ", unavoidable)}" };
        if (ended is null)
            faults.Add("it does not end");
        if (!board.Levels.SequenceEqual(levels))
            faults.Add($"CE went {string.Join(", ", board.Levels)}");
        return faults;
    }

    private static List<string> Differences(Board board, List<string> wanted)
    {
        var sent = board.Frames.Select(Convert.ToHexString).ToList();
        return sent.SequenceEqual(wanted) ? [] : [$"sent   {string.Join(" ", sent)}\nwanted {string.Join(" ", wanted)}"];
    }
}
