using RadioLint.CodeFixes;
using Xunit;

namespace RadioLint.Tests.Analyzers.Fixes;

/// <summary>Literals in their many forms; what is offered has a title that says it.</summary>
public sealed class PlannedValueTests
{
    private const string Log = "namespace Larkfield.Host; static class Log { HERE }";

    [Theory]
    [InlineData("[Planned(\"air.channel\")] private const int Own = {|RL9005:76|};", "LarkfieldApiary.Air.Channel", "Use LarkfieldApiary.Air.Channel", "RL9005")]
    [InlineData("[Planned({|RL9003:\"nodes.hive-4.air.channel\"|})] private const int Own = 74;", "\"nodes.hive-1.air.channel\"", "Use \"nodes.hive-1.air.channel\"", "RL9003 \"nodes.hive-1.air.channel\"")]
    [InlineData("[Planned(setting: {|RL9003:\"links.hiv.hive-1.reading.pipe\"|})] private static int Own { get; }", null, null, null)]
    [InlineData("[Planned(setting: {|RL9003:\"links.she.shed.reading.pipe\"|})] private static int Own { get; }", "{|RL9003:\"links.shed.shed.reading.pipe\"|}", "Use \"links.shed.shed.reading.pipe\"", "RL9003")]
    [InlineData("static int Of(ReceivedReport got) { Span<byte> room = stackalloc byte[32]; var bytes = got.Packet.CopyTo(room); return bytes.Length < 9 ? 0 : {|RL9008:BitConverter.ToInt32(bytes)|}; }",
        "BinaryPrimitives.ReadInt32LittleEndian(bytes)", "Use BinaryPrimitives.ReadInt32LittleEndian(bytes)", "RL9008")]
    [InlineData("static bool Of(ReceivedReport got) => got.Packet.Count == {|RL9009:8|};", "LarkfieldApiary.Payloads.Alarm.Size", "Use LarkfieldApiary.Payloads.Alarm.Size",
        "RL9009 LarkfieldApiary.Payloads.Alarm.Size")]
    public Task Each_offer_says_what_it_does(string before, string? now, string? title, string? key)
    {
        var code = Log.Replace("HERE", before, StringComparison.Ordinal);
        if (now is null || title is null || key is null)
            return FixTest<PutInPlace>.Leaves(code);
        var from = code.IndexOf("{|", StringComparison.Ordinal);
        var after = code[..from] + now + code[(code.IndexOf("|}", StringComparison.Ordinal) + 2)..];
        var test = new FixTest<PutInPlace>(code, after).Titled(title, key);
        return (key.Contains(' ', StringComparison.Ordinal) ? test.AllAtOnce(null) : test).Run();
    }

    // Two ends that the manifest does not know are mended one after the other.
    [Fact]
    public Task A_path_is_mended_part_by_part() => new FixTest<PutInPlace>(
        Log.Replace("HERE", "[Planned({|RL9003:\"links.nurser.shd.reading.pipe\"|})] private static int Own { get; }", StringComparison.Ordinal),
        Log.Replace("HERE", "[Planned(\"links.nursery.shed.reading.pipe\")] private static int Own { get; }", StringComparison.Ordinal))
    {
        NumberOfIncrementalIterations = 2,
        NumberOfFixAllIterations = 2,
        NumberOfFixAllInDocumentIterations = 2,
    }.Run();

    [Fact]
    public Task Addresses_become_the_generated_bytes_where_they_are_only_read() => new FixTest<PutInPlace>(
        """
        namespace Larkfield.Host;

        static class Log
        {
            static void Read(ReceivedReport got, SpiDevice device)
            {
                ReadOnlySpan<byte> address = {|RL9004:new byte[] { 0x49, 0x55, 0xDD, 0x6C, 0x77 }|}; // hive 1
                ReadOnlySpan<byte> turned = {|RL9005:[0x77, 0x6C, 0xDD, 0x55, 0x49]|};
                Console.WriteLine(address.Length + turned.Length + got.Pipe);
            }
        }
        """,
        """
        namespace Larkfield.Host;

        static class Log
        {
            static void Read(ReceivedReport got, SpiDevice device)
            {
                ReadOnlySpan<byte> address = LarkfieldApiary.Links.Hive1ToShedReading.AddressBytes; // hive 1
                ReadOnlySpan<byte> turned = LarkfieldApiary.Links.Hive1ToShedReading.AddressBytes;
                Console.WriteLine(address.Length + turned.Length + got.Pipe);
            }
        }
        """, rules: 2).Run();

    [Fact]
    public Task Patterns_and_cases_are_places_too() => new FixTest<PutInPlace>(
        """
        namespace Elsewhere
        {
            // A name of its own stands in the way.
            static class LarkfieldApiary { }

            static class Log
            {
                static bool Is(ReceivedReport got) => got.Pipe is {|RL9004:4|} or /* store */ {|RL9004:5|};

                static string Kind(ReceivedReport got)
                {
                    switch (got.Pipe)
                    {
                        case {|RL9004:4|}:
                            return "nursery";
                        default:
                            return "?";
                    }
                }
            }
        }
        """,
        """
        namespace Elsewhere
        {
            // A name of its own stands in the way.
            static class LarkfieldApiary { }

            static class Log
            {
                static bool Is(ReceivedReport got) => got.Pipe is Larkfield.Host.LarkfieldApiary.Links.NurseryToShedReading.Pipe or /* store */ Larkfield.Host.LarkfieldApiary.Links.StoreToShedClimate.Pipe;

                static string Kind(ReceivedReport got)
                {
                    switch (got.Pipe)
                    {
                        case Larkfield.Host.LarkfieldApiary.Links.NurseryToShedReading.Pipe:
                            return "nursery";
                        default:
                            return "?";
                    }
                }
            }
        }
        """).Run();

    [Fact]
    public Task Readers_keep_their_arguments_as_written() => new FixTest<PutInPlace>(
        """
        namespace Larkfield.Host;

        static class Log
        {
            static long Read(ReceivedReport got)
            {
                Span<byte> room = stackalloc byte[32];
                var bytes = got.Packet.CopyTo(room);
                if (bytes.Length < 9)
                    return 0;
                var packet = bytes.ToArray();
                var battery = {|RL9008:BinaryPrimitives.ReadUInt16BigEndian(
                    // after the temperature
                    bytes.Slice(
                        6))|};
                return battery + {|RL9008:MemoryMarshal.Read<int>(bytes)|} + {|RL9008:BitConverter.ToInt16(packet, 4)|};
            }
        }
        """,
        """
        namespace Larkfield.Host;

        static class Log
        {
            static long Read(ReceivedReport got)
            {
                Span<byte> room = stackalloc byte[32];
                var bytes = got.Packet.CopyTo(room);
                if (bytes.Length < 9)
                    return 0;
                var packet = bytes.ToArray();
                var battery = BinaryPrimitives.ReadUInt16LittleEndian(
                    // after the temperature
                    bytes.Slice(
                        6));
                return battery + BinaryPrimitives.ReadInt32LittleEndian(bytes) + BinaryPrimitives.ReadInt16LittleEndian(MemoryExtensions.AsSpan(packet, 4));
            }
        }
        """).Run();

    [Fact]
    public Task A_count_behind_a_question_mark_is_a_value_too() => new FixTest<PutInPlace>(
        """
        namespace Larkfield.Host;

        static class Log
        {
            static string Say(LarkfieldApiary.Payloads.Reading? last) => last?{|RL9020:.TemperatureRaw|}.ToString() ?? "none yet";
        }
        """,
        """
        namespace Larkfield.Host;

        static class Log
        {
            static string Say(LarkfieldApiary.Payloads.Reading? last) => last?.Temperature.ToString() ?? "none yet";
        }
        """).Run();

    // Each would not compile, would fail when it runs, or would hand a span that nobody can write to.
    [Fact]
    public Task What_would_not_do_is_not_offered() => FixTest<PutInPlace>.Leaves(
        """
        namespace Larkfield.Host;

        static class Log
        {
            [Planned("air.fingerprint")] private const int Own = {|RL9005:5|};

            static void Read(LarkfieldApiary.Payloads.Reading reading)
            {
                Console.WriteLine($"{{|RL9020:reading.TemperatureRaw|}:D5} {{|RL9020:reading.TemperatureRaw|}:X4}");
                Console.WriteLine({|RL9020:reading.TemperatureRaw|}.ToString("D5"));
                float shown = {|RL9020:reading.TemperatureRaw|};
                byte[] address = {|RL9004:{ 0x49, 0x55, 0xDD, 0x6C, 0x77 }|};
                Console.WriteLine(shown + address.Length);
            }

            static void Store(ReceivedReport got)
            {
                var bytes = new byte[32];
                got.Packet.CopyTo(bytes);
                _ = {|RL9008:BitConverter.TryWriteBytes(bytes, (short)4)|};
            }
        }
        """);
}
