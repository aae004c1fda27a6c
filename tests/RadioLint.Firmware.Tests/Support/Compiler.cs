namespace RadioLint.Tests.Firmware.Support;

/// <summary>One compiler of the matrix with its flags.</summary>
/// <param name="IncludeOf">The compiler whose own headers are used alone, so that no C library is needed; null to keep the usual ones.</param>
public sealed record Compiler(string Program, string Target, string Standard, bool IsCpp, string? IncludeOf = null)
{
    private static readonly string[] Warnings =
    [
        "-Wall", "-Wextra", "-Wpedantic", "-Wconversion", "-Wsign-conversion", "-Wshadow", "-Wundef", "-Wcast-qual", "-Werror", "-ffreestanding",
    ];

    private static readonly string[] Everything =
        ["-Weverything", "-Wno-padded", "-Wno-declaration-after-statement", "-Werror", "-ffreestanding"];

    private const string M0 = "-mcpu=cortex-m0plus -mthumb";
    private const string Rv32 = "-march=rv32imac -mabi=ilp32";

    public static IReadOnlyList<Compiler> All { get; } =
    [
        new("gcc", "", "-std=c99", false),
        new("gcc", "", "-std=c17", false),
        new("gcc", "-O3", "-std=c99", false),
        new("g++", "", "-std=c++11", true),
        new("g++", "-O2", "-std=c++20", true),
        new("clang-14", "", "-std=c99", false) { HasEverything = true },
        new("clang-14", "", "-std=c17", false),
        new("clang-14", "-xc++", "-std=c++11", true),
        new("avr-gcc", "-mmcu=atmega328p -Os", "-std=c99", false),
        new("avr-gcc", "-mmcu=atmega2560 -Os", "-std=c11", false),
        new("avr-g++", "-mmcu=atmega328p -Os", "-std=c++11", true),
        new("arm-none-eabi-gcc", $"{M0} -Os", "-std=c99", false, "arm-none-eabi-gcc"),
        new("arm-none-eabi-g++", $"{M0} -Os", "-std=c++11", true, "arm-none-eabi-gcc"),
        new("riscv64-unknown-elf-gcc", $"{Rv32} -Os", "-std=c99", false, "riscv64-unknown-elf-gcc"),
        new("riscv64-unknown-elf-g++", $"{Rv32} -Os", "-std=c++11", true, "riscv64-unknown-elf-gcc"),
        new("xtensa-lx106-elf-gcc", "-Os", "-std=c99", false, "xtensa-lx106-elf-gcc"),
        new("xtensa-lx106-elf-g++", "-Os", "-std=c++11", true, "xtensa-lx106-elf-gcc"),
        new("clang-14", "--target=arm-none-eabi -mcpu=cortex-m0plus", "-std=c99", false, "clang-14") { HasEverything = true },
        new("clang-14", $"--target=riscv32-unknown-elf {Rv32}", "-std=c99", false, "clang-14") { HasEverything = true },
    ];

    /// <summary>Every warning that the compiler has, but for two that speak of layout and of a style of C before 1999.</summary>
    public bool HasEverything { get; init; }

    public bool IsAvr => Program.StartsWith("avr-", StringComparison.Ordinal);

    public override string ToString() => $"{Program} {Target} {Standard}";

    public async Task<IEnumerable<string>> Flags(Workshop shop)
    {
        var flags = new List<string>();
        flags.AddRange(Target.Split(' ', StringSplitOptions.RemoveEmptyEntries));
        flags.Add(Standard);
        flags.AddRange(HasEverything ? Everything : Warnings);
        if (!IsCpp && !HasEverything)
            flags.AddRange(["-Wstrict-prototypes", "-Wmissing-prototypes"]);
        if (IncludeOf == "clang-14")
            flags.AddRange(["-nostdinc", "-isystem", (await shop.MustRun(IncludeOf, "-print-resource-dir")).Trim() + "/include"]);
        else if (IncludeOf is not null)
            flags.AddRange(["-nostdinc", "-isystem", (await shop.MustRun(IncludeOf, "-print-file-name=include")).Trim()]);
        return flags;
    }
}
