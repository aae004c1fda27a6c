using System.Globalization;
using System.Text;
using RadioLint.Readback;

namespace RadioLint.Cli.Tests.Support;

/// <summary>A sweep as the survey program prints it (docs/firmware.md): as many lines as 120 characters demand.</summary>
internal static class PrintedSweep
{
    public static string Of(string node, int number, Func<int, int> hits)
    {
        var text = new StringBuilder();
        for (var channel = 0; channel < 126;)
        {
            var line = string.Create(CultureInfo.InvariantCulture, $"rl1 sweep {node} {number} 200 {channel}");
            while (channel < 126 && line.Length + 8 <= 120)
                line += string.Create(CultureInfo.InvariantCulture, $" {hits(channel++)}");
            text.Append(line).Append(CultureInfo.InvariantCulture, $" *{ReportText.CheckOf(line):X2}\r\n");
        }
        return text.ToString();
    }
}
