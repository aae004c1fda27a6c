using RadioLint.CodeFixes;
using Xunit;

namespace RadioLint.Tests.Analyzers.Fixes;

/// <summary>Fixes that change statements and declarations, and where they are not offered.</summary>
public sealed class StructureTests
{
    [Fact]
    public Task A_payload_is_used_only_where_it_was_read() => new FixTest<CheckBeforeUse>(
        """
        namespace Larkfield.Host;

        static class Log
        {
            static void Read(ReadOnlySpan<byte> bytes)
            {
                // what the hive says
                {|RL9010:LarkfieldApiary.Payloads.Reading.TryRead(bytes, out var reading)|}; // nine bytes
                Console.WriteLine(reading.Weight);
            }

            static int ReadAll(byte[][] packets)
            {
                var sum = 0;
                foreach (var packet in packets)
                {
                    _ = /* six */ {|RL9010:LarkfieldApiary.Payloads.Order.TryRead(packet, out var order)|}; /* or not */
                    sum += order.Sequence;
                }
                return sum;
            }
        }
        """,
        """
        namespace Larkfield.Host;

        static class Log
        {
            static void Read(ReadOnlySpan<byte> bytes)
            {
                // what the hive says
                if (!LarkfieldApiary.Payloads.Reading.TryRead(bytes, out var reading))
                    return; // nine bytes
                Console.WriteLine(reading.Weight);
            }

            static int ReadAll(byte[][] packets)
            {
                var sum = 0;
                foreach (var packet in packets)
                {
                    if (!/* six */ LarkfieldApiary.Payloads.Order.TryRead(packet, out var order))
                        continue; /* or not */
                    sum += order.Sequence;
                }
                return sum;
            }
        }
        """).Run();

    // A value would have to be returned, and nobody knows which.
    [Fact]
    public Task Nothing_is_offered_where_a_value_must_be_returned()
    {
        const string code = """
            namespace Larkfield.Host;

            static class Log
            {
                static double Read(ReadOnlySpan<byte> bytes)
                {
                    {|RL9010:LarkfieldApiary.Payloads.Reading.TryRead(bytes, out var reading)|};
                    return reading.Weight;
                }
            }
            """;
        return new FixTest<CheckBeforeUse>(code, code).Run();
    }

    [Fact]
    public Task Devices_are_given_back_in_every_file() => new FixTest<GiveBack>(
        """
        namespace Larkfield.Host;

        static class Office
        {
            static void Run()
            {
                // the radio
                var device = {|RL9015:SpiDevice.Create(new SpiConnectionSettings(0, 0) { ClockFrequency = LarkfieldApiary.Nodes.Office.SpiClockHz })|};
                GpioController pins = {|RL9015:new()|};
                device.ApplyImage(LarkfieldApiary.Nodes.Office.Image);
                pins.OpenPin(LarkfieldApiary.Nodes.Office.Pins.CeNumber);
            }
        }
        """,
        """
        namespace Larkfield.Host;

        static class Office
        {
            static void Run()
            {
                // the radio
                using var device = SpiDevice.Create(new SpiConnectionSettings(0, 0) { ClockFrequency = LarkfieldApiary.Nodes.Office.SpiClockHz });
                using GpioController pins = new();
                device.ApplyImage(LarkfieldApiary.Nodes.Office.Image);
                pins.OpenPin(LarkfieldApiary.Nodes.Office.Pins.CeNumber);
            }
        }
        """, inDocuments: 1).With(
        """
        namespace Elsewhere
        {
            static class Shelf
            {
                static void Run(SpiDevice device)
                {
                    device.ApplyImage(Larkfield.Host.LarkfieldApiary.Nodes.Office.Image);
                    var pins = {|RL9015:new GpioController()|};
                    pins.OpenPin(Larkfield.Host.LarkfieldApiary.Nodes.Office.Pins.CeNumber);
                }
            }
        }
        """,
        """
        namespace Elsewhere
        {
            static class Shelf
            {
                static void Run(SpiDevice device)
                {
                    device.ApplyImage(Larkfield.Host.LarkfieldApiary.Nodes.Office.Image);
                    using var pins = new GpioController();
                    pins.OpenPin(Larkfield.Host.LarkfieldApiary.Nodes.Office.Pins.CeNumber);
                }
            }
        }
        """).Run();

    [Fact]
    public Task A_variable_that_is_assigned_anew_cannot_be_a_using()
    {
        const string code = """
            namespace Larkfield.Host;

            static class Office
            {
                static void Run(bool again)
                {
                    var device = {|RL9015:SpiDevice.Create(new SpiConnectionSettings(0, 0) { ClockFrequency = LarkfieldApiary.Nodes.Office.SpiClockHz })|};
                    device.ApplyImage(LarkfieldApiary.Nodes.Office.Image);
                    if (again)
                        device = {|RL9015:SpiDevice.Create(new SpiConnectionSettings(0, 1) { ClockFrequency = LarkfieldApiary.Nodes.Office.SpiClockHz })|};
                    device.ApplyImage(LarkfieldApiary.Nodes.Office.Image);
                }
            }
            """;
        return new FixTest<GiveBack>(code, code).Run();
    }

    [Fact]
    public Task A_type_adds_to_the_generated_one() => new FixTest<AddToGenerated>(
        """
        namespace Larkfield.Host
        {
            /// <summary>More of it.</summary>
            static class {|CS0260:{|RL9022:LarkfieldApiary|}|}
            {
                static partial class Payloads { }
            }
        }
        """,
        """
        namespace Larkfield.Host
        {
            /// <summary>More of it.</summary>
            static partial class LarkfieldApiary
            {
                static partial class Payloads { }
            }
        }
        """).Run();

    [Fact]
    public Task A_loop_looks_at_the_token_of_its_method() => new FixTest<LetItEnd>(
        """
        namespace Larkfield.Host;

        static class Log
        {
            static void Follow(Func<byte[]> next, CancellationToken stop)
            {
                {|RL9019:while|} (true) // for ever
                {
                    var reader = new ReportReader(next(), true);
                    while (reader.TryRead(out var line))
                        Console.WriteLine(line.Kind);
                }
            }

            static void FollowToo(Func<byte[]> next, CancellationToken stop)
            {
                {|RL9019:for|} (;;)
                {
                    var reader = new ReportReader(next(), true);
                    while (reader.TryRead(out var line))
                        Console.WriteLine(line.Kind);
                }
            }
        }
        """,
        """
        namespace Larkfield.Host;

        static class Log
        {
            static void Follow(Func<byte[]> next, CancellationToken stop)
            {
                while (!stop.IsCancellationRequested) // for ever
                {
                    var reader = new ReportReader(next(), true);
                    while (reader.TryRead(out var line))
                        Console.WriteLine(line.Kind);
                }
            }

            static void FollowToo(Func<byte[]> next, CancellationToken stop)
            {
                for (; !stop.IsCancellationRequested;)
                {
                    var reader = new ReportReader(next(), true);
                    while (reader.TryRead(out var line))
                        Console.WriteLine(line.Kind);
                }
            }
        }
        """).Run();

    [Fact]
    public Task Without_a_token_nothing_is_offered()
    {
        const string code = """
            namespace Larkfield.Host;

            static class Log
            {
                static void Follow(Func<byte[]> next)
                {
                    {|RL9019:while|} (true)
                    {
                        var reader = new ReportReader(next(), true);
                        while (reader.TryRead(out var line))
                            Console.WriteLine(line.Kind);
                    }
                }
            }
            """;
        return new FixTest<LetItEnd>(code, code).Run();
    }

    [Fact]
    public Task The_generated_payload_is_read_instead_of_an_own_struct() => new FixTest<UseGenerated>(
        """
        namespace Larkfield.Host;

        static class Log
        {
            private struct OwnReading { public int Weight; public short Temperature; public ushort Battery; public byte Sequence; }

            static void Read(ReceivedReport got)
            {
                Span<byte> room = stackalloc byte[32];
                var bytes = got.Packet.CopyTo(room);
                if (bytes.Length < 12)
                    return;
                var own = /* our own */ {|RL9006:MemoryMarshal.Read<OwnReading>(bytes)|}; // by hand
                Console.WriteLine(own.Weight + own.Temperature /* counts */ + own.Sequence);
            }
        }
        """,
        """
        namespace Larkfield.Host;

        static class Log
        {
            private struct OwnReading { public int Weight; public short Temperature; public ushort Battery; public byte Sequence; }

            static void Read(ReceivedReport got)
            {
                Span<byte> room = stackalloc byte[32];
                var bytes = got.Packet.CopyTo(room);
                if (bytes.Length < 12)
                    return;
                if (!/* our own */ LarkfieldApiary.Payloads.Reading.TryRead(bytes, out var own))
                    throw new ArgumentOutOfRangeException(nameof(bytes)); // by hand
                Console.WriteLine(own.WeightRaw + own.TemperatureRaw /* counts */ + own.Sequence);
            }
        }
        """).Run();

    // In a method that returns a value too; where the old call said false, the new one does.
    [Fact]
    public Task The_generated_payload_is_tried_instead_of_an_own_struct() => new FixTest<UseGenerated>(
        """
        namespace Larkfield.Host;

        static class Log
        {
            private struct OwnReading { public int Weight; public short Temperature; public ushort Battery; public byte Sequence; }

            static int Read(ReceivedReport got)
            {
                Span<byte> room = stackalloc byte[32];
                var bytes = got.Packet.CopyTo(room);
                return {|RL9006:MemoryMarshal.TryRead<OwnReading>(bytes, out var own)|} /* or none */ ? own.Weight : own.Temperature;
            }
        }
        """,
        """
        namespace Larkfield.Host;

        static class Log
        {
            private struct OwnReading { public int Weight; public short Temperature; public ushort Battery; public byte Sequence; }

            static int Read(ReceivedReport got)
            {
                Span<byte> room = stackalloc byte[32];
                var bytes = got.Packet.CopyTo(room);
                return LarkfieldApiary.Payloads.Reading.TryRead(bytes, out var own) /* or none */ ? own.WeightRaw : own.TemperatureRaw;
            }
        }
        """).Titled("Read LarkfieldApiary.Payloads.Reading", "RL9006").Run();

    [Fact]
    public Task A_struct_that_goes_elsewhere_is_left()
    {
        const string code = """
            namespace Larkfield.Host;

            static class Log
            {
                private struct OwnReading { public int Weight; public short Temperature; public ushort Battery; public byte Sequence; }

                static void Read(ReceivedReport got)
                {
                    Span<byte> room = stackalloc byte[32];
                    var bytes = got.Packet.CopyTo(room);
                    if (bytes.Length < 12)
                        return;
                    var own = {|RL9006:MemoryMarshal.Read<OwnReading>(bytes)|};
                    Console.WriteLine(own);
                }
            }
            """;
        return new FixTest<UseGenerated>(code, code).Run();
    }

    // The generated file is not looked at, so nothing in it can be changed.
    [Fact]
    public Task Generated_code_is_left_alone()
    {
        const string code = "// <auto-generated/>\nnamespace Larkfield.Host; static class Log { static bool First(RadioLint.BootReport boot) => boot.Fingerprint == 1; }";
        return new FixTest<PutInPlace>("", "").WithGenerated(code).Run();
    }
}
