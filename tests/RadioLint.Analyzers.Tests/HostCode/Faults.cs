using static RadioLint.Tests.Analyzers.HostCode.SeededFault;

namespace RadioLint.Tests.Analyzers.HostCode;

/// <summary>How each rule's faults are made from correct code.</summary>
public static class Faults
{
    private const string Gateway = "Gateway";
    private const string Office = "Office";
    private const string Bench = "Bench";
    private const string Members = "    // further members";
    private const string Types = "// further types";

    public static IEnumerable<SeededFault> All => [
        .. UnknownNames, .. Repeated, .. Contradicting, .. Structs, .. Orders, .. Buffers, .. Unchecked, .. Ignored, .. Callbacks, .. Waits, .. Undisposed, .. Settings, .. Pins,
        .. Loops, .. Counts, .. Clashes,
    ];

    private static IEnumerable<SeededFault> UnknownNames => [
        .. Any("RL9003", Gateway, "LarkfieldApiary.Nodes.Shed.Name", "«\"sched\"»", "«\"hive-4\"»", "«\"SHED\"»"),
        .. Any("RL9003", Gateway, "LarkfieldApiary.Nodes.Nursery.Name", "«\"nursry\"»", "«\"barn\"»"),
        .. Any("RL9003", Gateway, "LarkfieldApiary.Nodes.Store.Name", "«\"\"»"),
        .. Any("RL9003", Bench, "\"air.channel\")]\n", "«\"air.chanel\"»)]\n", "«\"channel\"»)]\n", "«\"air.\"»)]\n"),
        .. Any("RL9003", Bench, "\"links.hive-1.shed.reading.pipe\"", "«\"links.hive-9.shed.reading.pipe\"»", "«\"links.hive-1.shed.weather.pipe\"»", "«\"links.hive-1.shed.reading.pip\"»"),
        .. Any("RL9003", Bench, "\"payloads.reading.size\"", "«\"payloads.readings.size\"»", "«\"payloads.reading.length\"»"),
        .. Any("RL9003", Bench, "[Planned(\"nodes.shed.name\")]", "[Planned(«\"nodes.shad.name\"»)]", "[Planned(«\"nodes.shed.nam\"»)]"),
    ];

    private static IEnumerable<SeededFault> Repeated => [
        .. Each("RL9004", Gateway, "LarkfieldApiary.Nodes.Shed.Name", "«\"shed\"»"),
        .. Each("RL9004", Gateway, "LarkfieldApiary.Nodes.Weather.Name", "«\"weather\"»"),
        .. Each("RL9004", Gateway, "LarkfieldApiary.Air.Fingerprint", "«0x8CA7B5C1»"),
        .. Each("RL9004", Gateway, "LarkfieldApiary.Nodes.Shed.Digest", "«0xD084A95A»"),
        .. Each("RL9004", Gateway, "LarkfieldApiary.Links.WeatherToShedWeather.Pipe", "«0»"),
        .. Each("RL9004", Gateway, "is LarkfieldApiary.Links.Hive1ToShedReading.Pipe", "is «1»"),
        .. Each("RL9004", Gateway, "or LarkfieldApiary.Links.Hive2ToShedReading.Pipe", "or «2»"),
        .. Each("RL9004", Gateway, "case LarkfieldApiary.Links.Hive3ToShedReading.Pipe", "case «3»"),
        .. Each("RL9004", Gateway, "case LarkfieldApiary.Links.StoreToShedClimate.Pipe", "case «5»"),
        .. Each("RL9004", Gateway, "LarkfieldApiary.Links.Hive2ToShedReading.Pipe =>", "«2» =>"),
        .. Each("RL9004", Gateway, "LarkfieldApiary.Links.NurseryToShedReading.Pipe =>", "«4» =>"),
        .. Each("RL9004", Gateway, "== LarkfieldApiary.Payloads.Climate.Size", "== «4»"),
        .. Any("RL9004", Office, "ClockFrequency = LarkfieldApiary.Nodes.Office.SpiClockHz", "ClockFrequency = «4_000_000»"),
        .. Any("RL9004", Office, "var differences", "device.Write(«new byte[] { 0x25, 0x4A }»);\n        var differences", "device.Write(«[0x23, 0x03]»);\n        var differences"),
        .. Any("RL9004", Office, "        return good;", "        var mine = «new byte[] { 0xC2, 0xDF, 0x59, 0xEB, 0xAC }»;\n        return good && mine.Length > 0;", "        return good && «\"0xACEB59DFC2\"».Length > 0;"),
    ];

    private static IEnumerable<SeededFault> Contradicting => [
        .. Any("RL9005", Gateway, "LarkfieldApiary.Air.Fingerprint", "«0x8CA7B5C2»", "«0u»"),
        .. Any("RL9005", Gateway, "LarkfieldApiary.Nodes.Shed.Digest", "«0xD084A95B»"),
        .. Any("RL9005", Gateway, "or LarkfieldApiary.Nodes.Hive2.Digest", "or «0x11111111»"),
        .. Any("RL9005", Gateway, "is LarkfieldApiary.Links.Hive1ToShedReading.Pipe", "is «6»"),
        .. Any("RL9005", Gateway, "LarkfieldApiary.Links.WeatherToShedWeather.Pipe", "«-1»"),
        .. Any("RL9005", Gateway, "case LarkfieldApiary.Links.Hive3ToShedReading.Pipe", "case «7»"),
        .. Any("RL9005", Gateway, "LarkfieldApiary.Links.NurseryToShedReading.Pipe =>", "«9» =>"),
        .. Any("RL9005", Bench, "Channel = 74", "Channel = «75»", "Channel = «40 + 36»"),
        .. Any("RL9005", Bench, "Rate = 250;", "Rate = «1000»;"),
        .. Any("RL9005", Bench, "Width = 5", "Width = «4»"),
        .. Any("RL9005", Bench, "Crc = 2", "Crc = «1»"),
        .. Any("RL9005", Bench, "= LarkfieldApiary.Nodes.Office.SpiClockHz;", "= «8_000_000»;"),
        .. Any("RL9005", Bench, "HivePipe = 1", "HivePipe = «2»"),
        .. Any("RL9005", Bench, "\"0xACEB59DFC2\"", "«\"0xC2DF59EBAC\"»"),
        .. Any("RL9005", Bench, "ReadingBytes = 9", "ReadingBytes = «12»"),
        .. Any("RL9005", Bench, "\"GPIO22\"", "«\"GPIO25\"»"),
        .. Any("RL9005", Bench, "Repeats = 15", "Repeats = «3»"),
        .. Any("RL9005", Bench, "Interrupt = 24", "Interrupt = «18»"),
        .. Any("RL9005", Bench, "Tune(74)", "Tune(«76»)", "Tune(channel: «2474»)"),
        .. Any("RL9005", Bench, "Name(\"shed\", 250)", "Name(«\"barn\"», 250)", "Name(\"shed\", «2000»)"),
        .. Any("RL9005", Bench, "int rate = 250)", "int rate = «1000»)"),
        .. Any("RL9005", Office, "var differences", "device.Write(«new byte[] { 0x25, 0x4C }»);\n        var differences", "device.Write(«[0x26, 0x0F]»);\n        var differences", "byte[] width = «[0x23, 0x01]»;\n        device.Write(width);\n        var differences"),
        .. Any("RL9005", Office, "        return good;", "        ReadOnlySpan<byte> mine = «[0xAC, 0xEB, 0x59, 0xDF, 0xC2]»;\n        return good && mine.Length > 0;"),
    ];

    private static IEnumerable<SeededFault> Structs
    {
        get
        {
            const string reads = "    private static void Lay(ReceivedReport received)\n    {\n        Span<byte> room = stackalloc byte[32];\n        var bytes = received.Packet.CopyTo(room);\n        if (bytes.Length < 4)\n            return;\n        Console.WriteLine(«System.Runtime.InteropServices.MemoryMarshal.Read<OwnReading>(bytes)».ToString());\n    }\n";
            const string packed = "    [System.Runtime.InteropServices.StructLayout(System.Runtime.InteropServices.LayoutKind.Sequential, Pack = 1)]\n";
            string[] layouts =
            [
                "    private struct OwnReading { public int Weight; public short Temperature; public ushort Battery; public byte Sequence; }\n",
                packed + "    private struct OwnReading { public short Temperature; public int Weight; public ushort Battery; public byte Sequence; }\n",
                packed + "    private struct OwnReading { public int Weight; public int Temperature; public ushort Battery; public byte Sequence; }\n",
                packed + "    private struct OwnReading { public int Weight; public short Temperature; public ushort Battery; }\n",
                packed + "    private struct OwnReading { public int Weight; public short Temperature; public ushort Battery; public byte Sequence; public byte Spare; }\n",
                packed + "    private struct OwnReading { public byte Sequence; public int Weight; public short Temperature; public ushort Battery; }\n",
                packed + "    private struct OwnReading { public double Weight; public short Temperature; public ushort Battery; public byte Sequence; }\n",
                "    [System.Runtime.InteropServices.StructLayout(System.Runtime.InteropServices.LayoutKind.Explicit)]\n    private struct OwnReading { [System.Runtime.InteropServices.FieldOffset(0)] public int Weight; [System.Runtime.InteropServices.FieldOffset(5)] public short Temperature; [System.Runtime.InteropServices.FieldOffset(7)] public byte Sequence; }\n",
            ];
            foreach (var fault in layouts.SelectMany(layout => Each("RL9006", Gateway, Members, reads + layout)))
                yield return fault;
            string[] bound =
            [
                "[Planned(\"payloads.alarm\")]\ninternal struct «Bell» { public byte Cause; public uint Since; public byte Sequence; }",
                "[Planned(\"payloads.climate\")]\ninternal struct «Air» { public short Temperature; public byte Humidity; }",
            ];
            foreach (var fault in bound.SelectMany(layout => Each("RL9006", Bench, Types, layout)))
                yield return fault;
            var plain = reads.Replace("«", "", StringComparison.Ordinal).Replace("»", "", StringComparison.Ordinal);
            string[] fields = ["bool «Sequence»", "char «Sequence»", "decimal «Sequence»", "nint «Sequence»", "nuint «Sequence»"];
            foreach (var fault in fields.SelectMany(last => Each("RL9007", Gateway, Members, plain + packed + "    private struct OwnReading { public int Weight; public short Temperature; public ushort Battery; public " + last + "; }\n")))
                yield return fault;
            string[] boundFields = ["string «Text»", "byte[] «Bytes»", "bool «Frost»", "decimal «Since»", "object «Any»"];
            foreach (var fault in boundFields.SelectMany(second => Each("RL9007", Bench, Types, "[Planned(\"payloads.alarm\")]\ninternal struct Bell { public byte Cause; public " + second + "; }")))
                yield return fault;
        }
    }

    private static IEnumerable<SeededFault> Orders => [
        .. Any("RL9008", Gateway, "BinaryPrimitives.ReadInt32LittleEndian(bytes)", "«BinaryPrimitives.ReadInt32BigEndian(bytes)»", "«BitConverter.ToInt32(bytes)»", "«System.Runtime.InteropServices.MemoryMarshal.Read<int>(bytes)»"),
        .. Any("RL9008", Gateway, "BinaryPrimitives.ReadInt16LittleEndian(bytes.Slice(4))", "«BinaryPrimitives.ReadInt16BigEndian(bytes.Slice(4))»", "«BitConverter.ToInt16(bytes.Slice(4))»", "«BitConverter.ToInt16(bytes[4..])»", "«BitConverter.ToInt16(bytes.ToArray(), 4)»"),
        .. Any("RL9008", Gateway, "BinaryPrimitives.ReadUInt16LittleEndian(bytes.Slice(6, 2))", "«BitConverter.ToUInt16(bytes.Slice(6, 2))»", "«System.Runtime.InteropServices.MemoryMarshal.Cast<byte, ushort>(bytes.Slice(6, 2))»[0]"),
        .. Any("RL9008", Gateway, "BinaryPrimitives.ReadUInt16LittleEndian(bytes) + bytes[3]", "«BinaryPrimitives.ReadUInt16BigEndian(bytes)» + bytes[3]", "«BitConverter.ToUInt16(bytes)» + bytes[3]"),
        .. Any("RL9008", Gateway, "order.Write(copy);", "order.Write(copy);\n        «BitConverter.GetBytes((ushort)900)».CopyTo(copy, 0);", "order.Write(copy);\n        «BitConverter.TryWriteBytes(copy, (ushort)900)»;"),
    ];

    private static IEnumerable<SeededFault> Buffers => [
        .. Any("RL9009", Gateway, "stackalloc byte[32]", "stackalloc byte[«8»]", "stackalloc byte[«10»]"),
        .. Any("RL9009", Gateway, "var copy = new byte[LarkfieldApiary.Payloads.Order.Size]", "var copy = new byte[«3»]", "var copy = new byte[«LarkfieldApiary.Payloads.Order.Size - 1»]"),
        .. Any("RL9009", Gateway, "answer = new byte[LarkfieldApiary.Payloads.Order.Size]", "answer = new byte[«2»]"),
        .. Any("RL9009", Gateway, "third = stackalloc byte[LarkfieldApiary.Payloads.Order.Size]", "third = stackalloc byte[«1»]"),
        .. Any("RL9009", Gateway, "new byte[LarkfieldApiary.Payloads.Reading.Size];", "new byte[«8»];"),
        .. Any("RL9009", Gateway, "LarkfieldApiary.Payloads.Reading.TryRead(own, ", "LarkfieldApiary.Payloads.Reading.TryRead(«own.AsSpan(1)», ", "LarkfieldApiary.Payloads.Reading.TryRead(own.AsSpan(0, «8»), ", "LarkfieldApiary.Payloads.Reading.TryRead(own.AsSpan()[..«7»], "),
        .. Any("RL9009", Gateway, "reading.TryWrite(own)", "reading.TryWrite(own.AsSpan(0, «4»))"),
        .. Any("RL9009", Gateway, "== LarkfieldApiary.Payloads.Climate.Size", "== «5»", "== «64»"),
        .. Any("RL9009", Gateway, "order.Write(copy);", "order.Write(copy);\n        «copy[4]» = 1;", "order.Write(copy);\n        Console.WriteLine(«copy[6]»);"),
        .. Any("RL9009", Gateway, "var pipe = received.Pipe;", "Console.WriteLine(«packet.Slice(30, 4)».Length);\n        var pipe = received.Pipe;", "Console.WriteLine(«packet[32]»);\n        var pipe = received.Pipe;"),
    ];

    private static IEnumerable<SeededFault> Unchecked => [
        .. Each("RL9010", Gateway, "if (!LarkfieldApiary.Payloads.Reading.TryRead(bytes, out var reading))\n            return;", "«LarkfieldApiary.Payloads.Reading.TryRead(bytes, out var reading)»;"),
        .. Each("RL9010", Gateway, "if (!LarkfieldApiary.Payloads.Weather.TryRead(bytes, out var weather))\n            return;", "_ = «LarkfieldApiary.Payloads.Weather.TryRead(bytes, out var weather)»;"),
        .. Each("RL9010", Gateway, "if (!LarkfieldApiary.Payloads.Climate.TryRead(bytes, out var climate))\n            return;", "«LarkfieldApiary.Payloads.Climate.TryRead(bytes, out var climate)»;"),
        .. Each("RL9010", Gateway, "if (bytes.Length < 9)\n            return;\n        var weight = BinaryPrimitives.ReadInt32LittleEndian(bytes);", "var weight = «BinaryPrimitives.ReadInt32LittleEndian(bytes)»;"),
        .. Each("RL9010", Gateway, "if (bytes.Length != LarkfieldApiary.Payloads.Order.Size)\n            return 0;\n        return BinaryPrimitives.ReadUInt16LittleEndian(bytes)", "return «BinaryPrimitives.ReadUInt16LittleEndian(bytes)»"),
        .. Each("RL9010", Gateway, "if (bytes.Length != LarkfieldApiary.Payloads.Order.Size)\n            return 0;\n        return BinaryPrimitives.ReadUInt16LittleEndian(bytes) + bytes[3]", "return «bytes[3]»"),
    ];

    private static IEnumerable<SeededFault> Ignored => [
        .. Each("RL9011", Gateway, "if (!order.TryWrite(answer))\n            throw new InvalidOperationException();", "«order.TryWrite(answer)»;"),
        .. Each("RL9011", Gateway, "if (!reading.TryWrite(own))\n            return false;", "_ = «reading.TryWrite(own)»;"),
        .. Each("RL9011", Gateway, "Console.WriteLine(sent.Result == SendResult.Ok ? \"ok\" : \"lost\")", "Console.WriteLine(sent.Retries)").Select(fault => fault.ShownAt("line.TryGetSent(out var sent)")),
        .. Each("RL9011", Gateway, "line.TryGetSent(out var sent))\n            Console.WriteLine(sent.Result == SendResult.Ok ? \"ok\" : \"lost\")", "«line.TryGetSent(out _)»)\n            Console.WriteLine(1)"),
        .. Each("RL9011", Office, "var differences = device.VerifyImage(LarkfieldApiary.Nodes.Office.Image);", "«device.VerifyImage(LarkfieldApiary.Nodes.Office.Image)»;\n        string[] differences = [];").Select(fault => fault with { Text = fault.Text.Replace("differences.Count", "differences.Length", StringComparison.Ordinal) }),
        .. Each("RL9011", Office, "return radio.VerifyImage(LarkfieldApiary.Nodes.Office.Image).Count == 0;", "_ = «radio.VerifyImage(LarkfieldApiary.Nodes.Office.Image)»;\n        return true;"),
        .. Each("RL9011", Office, "var good = radio.VerifyImage(LarkfieldApiary.Nodes.Office.Image) is { Count: 0 };", "«RadioOverSpi.VerifyImage(radio, LarkfieldApiary.Nodes.Office.Image)»;\n        var good = true;"),
    ];

    private static IEnumerable<SeededFault> Callbacks
    {
        get
        {
            string[] bodies =
            [
                "«Thread.Sleep(1)»;", "«Task.Delay(1).Wait()»;", "«Task.Delay(1).GetAwaiter().GetResult()»;", "Console.WriteLine(«Task.FromResult(1).Result»);",
                "«device.WriteByte(0xFF)»;", "«device.ApplyImage(LarkfieldApiary.Nodes.Office.Image)»;", "«device.TransferFullDuplex(new byte[2], new byte[2])»;",
            ];
            foreach (var body in bodies)
            {
                foreach (var fault in Each("RL9013", Office, "(_, _) => edge.Set()", "(_, _) => { " + body + " edge.Set(); }"))
                    yield return fault;
            }
            foreach (var body in bodies.Take(4))
            {
                foreach (var fault in Each("RL9013", Office, "PinValueChangedEventArgs args)\n    {\n", "PinValueChangedEventArgs args)\n    {\n        " + body + "\n"))
                    yield return fault;
            }
        }
    }

    private static IEnumerable<SeededFault> Waits => [
        .. Any("RL9014", Office, "Thread.Sleep(5)", "Thread.Sleep(«1»)", "Thread.Sleep(«0»)", "Thread.Sleep(«500»)", "Thread.Sleep(«TimeSpan.FromMilliseconds(1)»)", "Thread.Sleep(«TimeSpan.FromSeconds(2)»)"),
        .. Any("RL9014", Office, "Task.Delay(5)", "Task.Delay(«1»)", "Task.Delay(«1000»)"),
        .. Any("RL9014", Bench, "Thread.Sleep(60)", "Thread.Sleep(«1»)", "Thread.Sleep(«5000»)"),
        .. Any("RL9014", Bench, "Thread.Sleep(TimeSpan.FromMilliseconds(60))", "Thread.Sleep(«TimeSpan.FromMilliseconds(3)»)"),
        .. Any("RL9014", Bench, "Task.Delay(60)", "Task.Delay(«2»)"),
        .. Any("RL9014", Bench, "Task.Delay(TimeSpan.FromMilliseconds(60))", "Task.Delay(«TimeSpan.FromSeconds(30)»)"),
    ];

    private static IEnumerable<SeededFault> Undisposed => [
        .. Each("RL9015", Office, "using var radio = SpiDevice.Create(new SpiConnectionSettings(0) { ClockFrequency = LarkfieldApiary.Nodes.Office.SpiClockHz, Mode = SpiMode.Mode0 })", "var radio = «SpiDevice.Create(new SpiConnectionSettings(0) { ClockFrequency = LarkfieldApiary.Nodes.Office.SpiClockHz, Mode = SpiMode.Mode0 })»"),
        .. Each("RL9015", Office, "using var radio = SpiDevice.Create(new SpiConnectionSettings(1, 0) { Mode = SpiMode.Mode0, ClockFrequency = LarkfieldApiary.Nodes.Office.SpiClockHz })", "var radio = «SpiDevice.Create(new SpiConnectionSettings(1, 0) { Mode = SpiMode.Mode0, ClockFrequency = LarkfieldApiary.Nodes.Office.SpiClockHz })»"),
        .. Each("RL9015", Office, "using var lines = new GpioController()", "var lines = «new GpioController()»"),
        .. Each("RL9015", Office, "using var port = new SerialPort(name, 115200)", "var port = «new SerialPort(name, 115200)»"),
        .. Each("RL9015", Office, "using (var radio = SpiDevice.Create(settings))\n        {", "{\n            var radio = «SpiDevice.Create(settings)»;"),
        .. Each("RL9015", Office, "class Office : IDisposable", "class Office").Select(fault => (fault with { Text = fault.Text.Replace("        pins.Dispose();\n", "", StringComparison.Ordinal) }).ShownAt("new()")),
    ];

    private static IEnumerable<SeededFault> Settings => [
        .. Any("RL9016", Office, "SpiMode.Mode0", "«SpiMode.Mode1»", "«SpiMode.Mode3»"),
        .. Any("RL9016", Office, "ClockFrequency = LarkfieldApiary.Nodes.Office.SpiClockHz", "ClockFrequency = «10_000_001»", "ClockFrequency = «20 * 1000 * 1000»"),
    ];

    private static IEnumerable<SeededFault> Pins => [
        .. Each("RL9018", Office, "pins.OpenPin(LarkfieldApiary.Nodes.Office.Pins.CeNumber", "pins.OpenPin(«15»"),
        .. Each("RL9018", Office, "pins.OpenPin(LarkfieldApiary.Nodes.Office.Pins.IrqNumber", "pins.OpenPin(«18»"),
        .. Each("RL9018", Office, "lines.OpenPin(LarkfieldApiary.Nodes.Office.Pins.CeNumber", "lines.OpenPin(«15»"),
        .. Each("RL9018", Office, "lines.OpenPin(LarkfieldApiary.Nodes.Office.Pins.CsnNumber", "lines.OpenPin(«18»"),
        .. Each("RL9018", Office, "lines.OpenPin(LarkfieldApiary.Nodes.Office.Pins.CsnNumber, PinMode.Output)", "lines.OpenPin(pinNumber: «15», PinMode.Output)"),
    ];

    private static IEnumerable<SeededFault> Loops => [
        .. Each("RL9019", Gateway, "while (!stop.IsCancellationRequested)\n        {\n            count += await port.ReadAsync(held.AsMemory(count), stop);", "«while» (true)\n        {\n            count += await port.ReadAsync(held.AsMemory(count));"),
        .. Each("RL9019", Gateway, "for (; !stop.IsCancellationRequested;)", "«for» (; ;)"),
        .. Each("RL9019", Gateway, "for (; !stop.IsCancellationRequested;)", "«while» (true)"),
        .. Each("RL9019", Office, "while (!stop.IsCancellationRequested)", "«while» (true)"),
        .. Each("RL9019", Office, "while (!stop.IsCancellationRequested)", "«for» (; true;)"),
        .. Each("RL9019", Gateway, "catch (IOException fault)\n            {\n                Console.Error.WriteLine(fault.Message);\n            }", "«catch» (Exception)\n            {\n            }"),
        .. Each("RL9019", Gateway, "catch (Exception fault) when (fault is IOException)\n            {\n                Console.Error.WriteLine(fault.Message);\n            }", "«catch»\n            {\n                continue;\n            }"),
    ];

    private static IEnumerable<SeededFault> Counts => [
        .. Each("RL9020", Gateway, "inside = reading.Temperature", "inside = «reading.TemperatureRaw»"),
        .. Each("RL9020", Gateway, "if (reading.Temperature > 36.5)", "if («reading.TemperatureRaw» > 36.5)"),
        .. Each("RL9020", Gateway, "{reading.Temperature} degC", "{«reading.TemperatureRaw»} degC"),
        .. Each("RL9020", Gateway, "\"brood at \" + reading.Temperature", "\"brood at \" + «reading.TemperatureRaw»"),
        .. Each("RL9020", Gateway, "reading.Temperature.ToString", "«reading.TemperatureRaw».ToString"),
        .. Each("RL9020", Gateway, "kelvin = reading.Temperature + 273.15", "kelvin = «reading.TemperatureRaw» + 273.15"),
        .. Each("RL9020", Gateway, "kelvin = reading.Temperature + 273.15", "kelvin = («reading.TemperatureRaw» / 10.0) + 273.15"),
        .. Each("RL9020", Gateway, "kelvin = reading.Temperature + 273.15", "kelvin = («reading.TemperatureRaw» * 0.1) + 273.15"),
        .. Each("RL9020", Gateway, "Math.Max(warmest, reading.Temperature)", "Math.Max(warmest, «reading.TemperatureRaw»)"),
        .. Each("RL9020", Gateway, "{weather.Wind:0.0}", "{«weather.WindRaw»:0.0}"),
        .. Each("RL9020", Gateway, "{weather.Pressure}", "{«weather.PressureRaw»}"),
        .. Each("RL9020", Gateway, "wind = weather.Wind", "wind = «weather.WindRaw»"),
        .. Each("RL9020", Gateway, "weather.Pressure < 980.0", "«weather.PressureRaw» < 980.0"),
        .. Each("RL9020", Gateway, "{climate.Temperature}", "{«climate.TemperatureRaw»}"),
    ];

    private static IEnumerable<SeededFault> Clashes => [
        .. Any("RL9022", Bench, Types,
            "internal static class «LarkfieldApiary» { }",
            "internal sealed class «LarkfieldApiary» { }",
            "internal static partial class LarkfieldApiary { internal static class «Payloads» { } }",
            "internal static partial class LarkfieldApiary { public static class «Air» { } }",
            "internal static partial class LarkfieldApiary { public static class «Nodes» { } }"),
    ];
}
