using RadioLint.Tests.Analyzers.Support;
using Xunit;

namespace RadioLint.Tests.Analyzers.HostCode;

public sealed class FirstLook
{
    [Fact]
    public async Task Shows()
    {
        var program = HostProgram.OfApiary() with { Target = Target.Net100.WithSpi, Sources = ["""
            using System;
            using System.Device.Gpio;
            using System.Device.Spi;
            using System.Buffers.Binary;
            using System.Runtime.InteropServices;
            using System.Threading;
            using RadioLint;
            namespace Larkfield.Host;

            public sealed class Office
            {
                private static SpiDevice Open() => SpiDevice.Create(new SpiConnectionSettings(0, 0) { ClockFrequency = 20_000_000, Mode = SpiMode.Mode1 });
                [Planned("air.channel")] private const int Channel = 76;
                [Planned("air.chanel")] private const int Channel2 = 76;
                private static void Tune([Planned("air.rate")] int rate) { }

                public void Run()
                {
                    var device = Open();
                    using var pins = new GpioController();
                    pins.OpenPin(15, PinMode.Output);
                    pins.RegisterCallbackForPinValueChangedEvent(LarkfieldApiary.Nodes.Office.Pins.IrqNumber, PinEventTypes.Falling, (s, e) => { Thread.Sleep(1); device.WriteByte(0xFF); });
                    device.ApplyImage(LarkfieldApiary.Nodes.Office.Image);
                    device.VerifyImage(LarkfieldApiary.Nodes.Office.Image);
                    device.Write(new byte[] { 0x25, 0x50 });
                    device.Write([0x25, 0x4A]);
                    ReadOnlySpan<byte> x = stackalloc byte[] { 0x25, 0x4B };
                    device.Write(x);
                    device.Write(new byte[] { 0x20, 0x0E });
                    Thread.Sleep(1);
                    Tune(1000);
                    byte[] a = { 0xC2, 0xDF, 0x59, 0xEB, 0xAC };
                }

                public void Log(ReadOnlySpan<byte> log)
                {
                    var reader = new ReportReader(log, true);
                    while (true)
                    {
                        try
                        {
                        if (!reader.TryRead(out var line)) continue;
                        if (line.IsFrom("hive-9") || line.IsFrom("shed")) { }
                        if (line.TryGetBoot(out var boot) && boot.Fingerprint == 0x12345678) { }
                        if (line.TryGetReceived(out var got))
                        {
                            var pipe = got.Pipe;
                            if (pipe == 1 || pipe is 7) { }
                            if (got.Packet.Count == 8) { }
                            Span<byte> b = stackalloc byte[8];
                            var bytes = got.Packet.CopyTo(b);
                            Decode(bytes);
                            LarkfieldApiary.Payloads.Reading.TryRead(bytes, out var reading);
                            Console.WriteLine($"{reading.TemperatureRaw} degC");
                        }
                        }
                        catch (Exception) { }
                    }
                }

                private static void Decode(ReadOnlySpan<byte> bytes)
                {
                    var w = BitConverter.ToInt32(bytes);
                    var t = BinaryPrimitives.ReadInt16BigEndian(bytes.Slice(4));
                    var z = bytes.Slice(4, 9);
                    var own = MemoryMarshal.Read<ReadingBytes>(bytes);
                }

                private struct ReadingBytes { public int Weight; public short Temperature; public ushort Battery; public byte Sequence; }
            }
            """] };
        Assert.Fail(string.Join('\n', await Diagnosed.InCode(program)));
    }
}
