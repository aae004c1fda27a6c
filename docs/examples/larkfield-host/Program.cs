using System.IO.Ports;
using Larkfield.Host;

// Shows what the apiary's gateway reports: from a serial port, a file or standard input.
if (args.Length != 1 || args[0] is "-h" or "--help")
{
    Console.Error.WriteLine("""
        Usage: larkfield-host SOURCE
          SOURCE   a serial port such as /dev/ttyUSB0 or COM3, a recorded log, or - for standard input
        Examples:
          larkfield-host gateway.log
          larkfield-host /dev/ttyUSB0
        """);
    return 2;
}

using var stop = new CancellationTokenSource();
Console.CancelKeyPress += (_, pressed) =>
{
    pressed.Cancel = true;
    stop.Cancel();
};

try
{
    using var source = Open(args[0]);
    IHiveView view = Console.IsOutputRedirected ? new PlainLines(Console.Out) : new LiveTable(Console.Out);
    var apiary = new Apiary(view);
    await GatewayLog.ReadAsync(source, apiary, stop.Token);
    apiary.End();
    return 0;
}
catch (FileNotFoundException)
{
    Console.Error.WriteLine($"{args[0]}: no file and no serial port has this name");
    return 2;
}
catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
{
    Console.Error.WriteLine($"{args[0]}: {fault.Message}");
    return 2;
}

static Stream Open(string source)
{
    if (source == "-")
        return Console.OpenStandardInput();
    if (!SerialPort.GetPortNames().Contains(source, StringComparer.Ordinal))
        return File.OpenRead(source);
    // As the manifest says of the shed's host: serial, 115200 baud.
    var port = new SerialPort(source, 115_200);
    port.Open();
    return port.BaseStream;
}
