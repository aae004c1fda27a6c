using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace RadioLint.Tests.Proof.Host;

/// <summary>
/// Emitted headers compiled for this machine into one shared object. The board's hooks lead back here; reads of tables can give another byte at one place, which
/// makes a mutant without compiling anything again.
/// </summary>
public sealed unsafe class HostProgram : IDisposable
{
    // Longer than any table: what has not ended by then goes round.
    private const int MostBytes = 2_000;

    [ThreadStatic]
    private static Board? current;

    private readonly nint library;
    private readonly delegate* unmanaged<int, int, int, int, int> run;
    private readonly delegate* unmanaged<int, int, int> read;
    private readonly Dictionary<(string Ident, string Name), int> functions = [];
    private readonly Dictionary<(string Ident, string Name), int> tables = [];

    /// <param name="path">The shared object that these nodes were compiled into, in this order.</param>
    internal HostProgram(string path, IEnumerable<EmittedNode> nodes)
    {
        foreach (var node in nodes)
        {
            foreach (var function in node.Functions)
                functions.Add((node.Ident, function), functions.Count);
            foreach (var table in node.Tables)
                tables.Add((node.Ident, table), tables.Count);
        }
        library = NativeLibrary.Load(path);
        run = (delegate* unmanaged<int, int, int, int, int>)NativeLibrary.GetExport(library, "proof_run");
        read = (delegate* unmanaged<int, int, int>)NativeLibrary.GetExport(library, "proof_read_at");
        var start = (delegate* unmanaged<void*, void*, void*, void*, void*, int, void>)NativeLibrary.GetExport(library, "proof_start");
        start(
            (delegate* unmanaged[Cdecl]<void>)&Select, (delegate* unmanaged[Cdecl]<void>)&Release, (delegate* unmanaged[Cdecl]<byte, byte>)&Exchange,
            (delegate* unmanaged[Cdecl]<byte, void>)&Ce, (delegate* unmanaged[Cdecl]<ushort, void>)&Wait, MostBytes);
    }

    /// <summary>The bytes of a table as compiled.</summary>
    public byte[] Table(EmittedNode node, string table)
    {
        var index = tables[(node.Ident, table)];
        var bytes = new List<byte>();
        for (var i = 0; read(index, i) is >= 0 and var value; i++)
            bytes.Add((byte)value);
        return [.. bytes];
    }

    /// <summary>Runs a function of a node with a board's radio, the byte of a table replaced where one is named. Null when it did not end.</summary>
    public int? Run(EmittedNode node, string function, Board board, (string Table, int At, byte Instead)? change = null)
    {
        current = board;
        var result = change is { } one
            ? run(functions[(node.Ident, function)], tables[(node.Ident, one.Table)], one.At, one.Instead)
            : run(functions[(node.Ident, function)], -1, 0, 0);
        current = null;
        return result < 0 ? null : result;
    }

    public void Dispose() => NativeLibrary.Free(library);

    [UnmanagedCallersOnly(CallConvs = [typeof(CallConvCdecl)])]
    private static void Select() => current!.Select();

    [UnmanagedCallersOnly(CallConvs = [typeof(CallConvCdecl)])]
    private static void Release() => current!.Release();

    [UnmanagedCallersOnly(CallConvs = [typeof(CallConvCdecl)])]
    private static byte Exchange(byte value) => current!.Exchange(value);

    [UnmanagedCallersOnly(CallConvs = [typeof(CallConvCdecl)])]
    private static void Ce(byte level) => current!.Ce(level != 0);

    [UnmanagedCallersOnly(CallConvs = [typeof(CallConvCdecl)])]
    private static void Wait(ushort microseconds) => current!.Wait(microseconds);
}
