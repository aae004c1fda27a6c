using RadioLint.CodeFixes;
using Xunit;

namespace RadioLint.Tests.Analyzers.Fixes;

/// <summary>What the plan says takes the place of what was written; comments and line ends stay.</summary>
public sealed class PutInPlaceTests
{
    [Fact]
    public Task Literals_become_constants_in_several_places_and_files() => new FixTest<PutInPlace>(
        """
        namespace Larkfield.Host;

        static class Log
        {
            [Planned({|RL9003:"air.chanel"|})] private const int Bad = 74;
            [Planned("air.channel")] private const int Channel = /* was moved */ {|RL9005:76|}; // by hand

            static bool Mine(ReportLine line) => line.IsFrom({|RL9003:"sched"|})
                || line.IsFrom(
                    {|RL9004:"office"|}); // ours

            static bool Same(BootReport boot) => boot.Fingerprint == {|RL9004:0x8CA7B5C1|} && boot.Fingerprint != {|RL9005:1|};

            static string Kind(ReceivedReport got) => got.Pipe switch
            {
                {|RL9004:4|} => "nursery",
                _ => got.Pipe == {|RL9004:5|} ? "store" : "?",
            };
        }
        """,
        """
        namespace Larkfield.Host;

        static class Log
        {
            [Planned("air.channel")] private const int Bad = 74;
            [Planned("air.channel")] private const int Channel = /* was moved */ LarkfieldApiary.Air.Channel; // by hand

            static bool Mine(ReportLine line) => line.IsFrom(LarkfieldApiary.Nodes.Shed.Name)
                || line.IsFrom(
                    LarkfieldApiary.Nodes.Office.Name); // ours

            static bool Same(BootReport boot) => boot.Fingerprint == LarkfieldApiary.Air.Fingerprint && boot.Fingerprint != LarkfieldApiary.Air.Fingerprint;

            static string Kind(ReceivedReport got) => got.Pipe switch
            {
                LarkfieldApiary.Links.NurseryToShedReading.Pipe => "nursery",
                _ => got.Pipe == LarkfieldApiary.Links.StoreToShedClimate.Pipe ? "store" : "?",
            };
        }
        """, rules: 3, inDocuments: 1).With(
        """
        namespace Elsewhere
        {
            static class Other
            {
                static bool Same(BootReport boot) => boot.Fingerprint == {|RL9004:0x8CA7B5C1|};
            }
        }
        """,
        """
        namespace Elsewhere
        {
            static class Other
            {
                static bool Same(BootReport boot) => boot.Fingerprint == Larkfield.Host.LarkfieldApiary.Air.Fingerprint;
            }
        }
        """).Run();

    [Theory]
    [InlineData(0, "LarkfieldApiary.Links.Hive1ToShedReading.Pipe")]
    [InlineData(1, "LarkfieldApiary.Links.StoreToOfficeAlarm.Pipe")]
    public Task Where_several_may_be_meant_each_is_offered(int choice, string constant)
    {
        const string code = "namespace Larkfield.Host; static class Log { static bool First(ReceivedReport got) => got.Pipe == HERE; }";
        return new FixTest<PutInPlace>(code.Replace("HERE", "{|RL9004:1|}", StringComparison.Ordinal), code.Replace("HERE", constant, StringComparison.Ordinal)) { CodeActionIndex = choice }.AllAtOnce(null).Run();
    }

    // Even where it begins with such a place.
    [Fact]
    public Task All_at_once_nothing_is_chosen_that_a_person_must_choose()
    {
        const string code = "namespace Larkfield.Host; static class Log { static bool Is(ReceivedReport got) => got.Pipe == FIRST || got.Pipe == SECOND || got.Pipe == THIRD; }";
        static string With(string first, string second, string third) => code.Replace("FIRST", first, StringComparison.Ordinal).Replace("SECOND", second, StringComparison.Ordinal).Replace("THIRD", third, StringComparison.Ordinal);
        const string hive = "LarkfieldApiary.Links.Hive1ToShedReading.Pipe", nursery = "LarkfieldApiary.Links.NurseryToShedReading.Pipe", store = "LarkfieldApiary.Links.StoreToShedClimate.Pipe";
        return new FixTest<PutInPlace>(With("{|RL9004:1|}", "{|RL9004:4|}", "{|RL9004:5|}"), With(hive, nursery, store))
            .AllAtOnce(With("{|RL9004:1|}", nursery, store)).Run();
    }

    [Fact]
    public Task Payloads_are_read_by_their_own_order_length_and_unit() => new FixTest<PutInPlace>(
        """
        namespace Larkfield.Host;

        static class Log
        {
            static void Read(ReceivedReport got)
            {
                Span<byte> room = stackalloc byte[{|RL9009:8|}]; // a packet
                var bytes = got.Packet.CopyTo(room);
                if (bytes.Length < 9)
                    return;
                var weight = {|RL9008:BitConverter.ToInt32(bytes)|};
                var battery = {|RL9008:BinaryPrimitives.ReadUInt16BigEndian(bytes.Slice(6))|};
                var own = new byte[{|RL9009:7|}];
                if (!LarkfieldApiary.Payloads.Reading.TryRead(bytes, out var reading) || !reading.TryWrite(own))
                    return;
                Console.WriteLine($"{weight + battery}: { {|RL9020:reading.TemperatureRaw|} /* inside */} degC");
            }
        }
        """,
        """
        namespace Larkfield.Host;

        static class Log
        {
            static void Read(ReceivedReport got)
            {
                Span<byte> room = stackalloc byte[32]; // a packet
                var bytes = got.Packet.CopyTo(room);
                if (bytes.Length < 9)
                    return;
                var weight = BinaryPrimitives.ReadInt32LittleEndian(bytes);
                var battery = BinaryPrimitives.ReadUInt16LittleEndian(bytes.Slice(6));
                var own = new byte[LarkfieldApiary.Payloads.Reading.Size];
                if (!LarkfieldApiary.Payloads.Reading.TryRead(bytes, out var reading) || !reading.TryWrite(own))
                    return;
                Console.WriteLine($"{weight + battery}: { reading.Temperature /* inside */} degC");
            }
        }
        """, rules: 3).Run();

    [Fact]
    public Task A_radio_on_the_computer_is_opened_as_planned() => new FixTest<PutInPlace>(
        """
        namespace Larkfield.Host;

        static class Office
        {
            static void Run()
            {
                using var device = SpiDevice.Create(new SpiConnectionSettings(0, 0) { ClockFrequency = {|RL9016:20_000_000|}, Mode = {|RL9016:SpiMode.Mode3|} });
                device.ApplyImage(LarkfieldApiary.Nodes.Store.Image);
                device.Write(new byte[] { 0xA0, 1, 2, 3 });
                Thread.Sleep({|RL9014:1|}); // until it is done
            }
        }
        """,
        """
        namespace Larkfield.Host;

        static class Office
        {
            static void Run()
            {
                using var device = SpiDevice.Create(new SpiConnectionSettings(0, 0) { ClockFrequency = LarkfieldApiary.Nodes.Store.SpiClockHz, Mode = SpiMode.Mode0 });
                device.ApplyImage(LarkfieldApiary.Nodes.Store.Image);
                device.Write(new byte[] { 0xA0, 1, 2, 3 });
                Thread.Sleep((int)((LarkfieldApiary.Links.StoreToOfficeAlarm.LongestUs + 999) / 1000)); // until it is done
            }
        }
        """, rules: 2).Run();

    [Fact]
    public Task Pins_go_by_the_controllers_numbers() => new FixTest<PutInPlace>(
        """
        namespace Larkfield.Host;

        static class Office
        {
            static void Run(SpiDevice device)
            {
                using var pins = new GpioController();
                pins.OpenPin({|RL9018:15|}, PinMode.Output); // CE
                device.ApplyImage(LarkfieldApiary.Nodes.Office.Image);
            }
        }
        """,
        """
        namespace Larkfield.Host;

        static class Office
        {
            static void Run(SpiDevice device)
            {
                using var pins = new GpioController();
                pins.OpenPin(LarkfieldApiary.Nodes.Office.Pins.CeNumber, PinMode.Output); // CE
                device.ApplyImage(LarkfieldApiary.Nodes.Office.Image);
            }
        }
        """).Run();
}
