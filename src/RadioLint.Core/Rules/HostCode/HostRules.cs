using System.Collections.Immutable;
using RadioLint.Findings;

namespace RadioLint.Rules.HostCode;

/// <summary>
/// What can be wrong with C# code beside a manifest. The descriptors stand here, so that `explain` knows them and the code fixes share them; the
/// compiler's analyzers do the looking.
/// </summary>
public static class HostRules
{
    public static readonly Descriptor NoManifest = new(
        "RL9001", Severity.Warning, "No manifest among the compiler's files",
        "one file named `*.radio.yaml` or `*.radio.json` among the project's AdditionalFiles", "0.1");

    public static readonly Descriptor UnreadableManifest = new(
        "RL9002", Severity.Error, "Manifest could not be read",
        "the manifest reads far enough to be a network with a name and nodes", "0.1");

    public static readonly Descriptor UnknownName = new(
        "RL9003", Severity.Error, "Name that the manifest does not have",
        "each node, link, payload and setting that code names is one of the manifest", "0.1");

    public static readonly Descriptor LiteralRepeatsPlan = new(
        "RL9004", Severity.Info, "Literal that repeats the plan",
        "a value of the plan is written once, in the manifest", "0.1");

    public static readonly Descriptor LiteralContradictsPlan = new(
        "RL9005", Severity.Error, "Value that contradicts the plan",
        "the value equals the manifest's", "0.1");

    public static readonly Descriptor StructOfOtherLayout = new(
        "RL9006", Severity.Error, "Payload struct with another layout",
        "size and each field's offset and width equal those of the payload in the manifest", "0.1");

    public static readonly Descriptor FieldWithoutFixedForm = new(
        "RL9007", Severity.Error, "Type without a fixed form in a payload struct",
        "integers, floating-point numbers, enums of the payload's width, fixed buffers and structs of them", "0.1");

    public static readonly Descriptor WrongByteOrder = new(
        "RL9008", Severity.Warning, "Byte conversion in an order that is not the payload's",
        "the byte order that the payload has in the manifest, stated in the call; little-endian unless the payload says otherwise", "0.1");

    public static readonly Descriptor BufferDoesNotFit = new(
        "RL9009", Severity.Error, "Buffer that does not fit the payload",
        "the payload's length in the manifest; exactly so many bytes are read, at least so many must be there to be written", "0.1");

    public static readonly Descriptor DecodedUnchecked = new(
        "RL9010", Severity.Warning, "Payload decoded without a check",
        "length and constants are compared before a field is used", "0.1");

    public static readonly Descriptor ResultIgnored = new(
        "RL9011", Severity.Warning, "Result ignored",
        "the result of sending, of writing a payload and of comparing registers is looked at", "0.1");

    public static readonly Descriptor BlockingCallback = new(
        "RL9013", Severity.Warning, "Blocking work in an interrupt callback",
        "no wait and no bus access in the callback of a pin", "0.1");

    public static readonly Descriptor WaitAgainstTiming = new(
        "RL9014", Severity.Warning, "Wait that does not suit the radio's timing",
        "after power up 1.5 ms at least, 4.5 ms with the slowest crystal of the table (nRF24L01+ Product Specification 1.0, Table 16) and no more than ten times that; after loading a packet the link's `LongestUs` at least and no more than twenty times that", "0.1");

    public static readonly Descriptor NotDisposed = new(
        "RL9015", Severity.Warning, "Device that is not disposed of",
        "bus, pins and port are given back when they are no longer needed", "0.1");

    public static readonly Descriptor WrongSpiSettings = new(
        "RL9016", Severity.Error, "SPI settings that the radio does not understand",
        "mode 0; clock of 10 MHz at most (nRF24L01+ Product Specification 1.0, Table 22), 8 MHz for nRF24L01 (2.0, 8.2)", "0.1");

    public static readonly Descriptor OtherPinScheme = new(
        "RL9018", Severity.Warning, "Pin number of another numbering scheme",
        "the number of the GPIO where the controller counts GPIOs, the position on the header where it counts those", "0.1");

    public static readonly Descriptor EndlessReceiving = new(
        "RL9019", Severity.Warning, "Receive loop that cannot be stopped",
        "a way out of the loop, and no catch that hides every fault", "0.1");

    public static readonly Descriptor CountUsedAsValue = new(
        "RL9020", Severity.Warning, "Count used as if it were the value",
        "the property in the field's unit, or the field's own scale", "0.1");

    public static readonly Descriptor NameClash = new(
        "RL9022", Severity.Warning, "Generated names clash",
        "each name becomes one name in C#, and no type of the program's own has it", "0.1");

    public static readonly Descriptor FirmwareOfOtherPlan = new(
        "RL9023", Severity.Warning, "Firmware of another plan",
        "the digest of each node in the record beside the manifest equals the digest of the manifest as it is", "0.1");

    public static readonly Descriptor UnfitProject = new(
        "RL9025", Severity.Error, "Project cannot hold the generated code",
        "C# 10 or later, and `System.ReadOnlySpan<T>`", "0.1");

    public static readonly Descriptor Defect = new(
        "RL9026", Severity.Warning, "RadioLint failed",
        "no manifest and no program makes RadioLint fail", "0.1");

    /// <summary>All of them, in the order of their IDs.</summary>
    public static ImmutableArray<Descriptor> All { get; } = ImmutableArray.Create(
        NoManifest, UnreadableManifest, UnknownName, LiteralRepeatsPlan, LiteralContradictsPlan, StructOfOtherLayout, FieldWithoutFixedForm, WrongByteOrder,
        BufferDoesNotFit, DecodedUnchecked, ResultIgnored, BlockingCallback, WaitAgainstTiming, NotDisposed, WrongSpiSettings, OtherPinScheme,
        EndlessReceiving, CountUsedAsValue, NameClash, FirmwareOfOtherPlan, UnfitProject, Defect);
}
