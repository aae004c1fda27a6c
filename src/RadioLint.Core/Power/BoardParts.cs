using RadioLint.Hardware;
using RadioLint.Units;

namespace RadioLint.Power;

/// <summary>Parts of a board that draw current whatever the controller does.</summary>
public static class BoardParts
{
    /// <summary>What ready-made boards carry, by the names of `always-on` and `removed`.</summary>
    public const string PowerLed = "power LED", UsbBridge = "USB bridge", Regulator = "regulator";

    /// <summary>The declared ones that are still there.</summary>
    public static IEnumerable<(string Part, Current Current)> OnBoard(Board? board) => board is null ? [] : board.AlwaysOn.Where(part => !IsRemoved(board, part.Part));

    public static bool IsRemoved(Board board, string part) => board.Removed.Any(removed => removed.Value == part);
}
