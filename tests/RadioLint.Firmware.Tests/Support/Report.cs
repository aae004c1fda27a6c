using System.Globalization;
using System.Text;
using Xunit;

namespace RadioLint.Tests.Firmware.Support;

/// <summary>A report line taken apart by these tests' own means: the check value by long division of polynomials, not by the code under test.</summary>
public sealed record Report(string Kind, string Node, IReadOnlyList<string> Fields)
{
    /// <summary>The reports among some output; every line that looks like one must be whole, here and for the reader that C# programs get.</summary>
    public static List<Report> All(string output)
    {
        List<Report> reports = [.. output.Split('\n').Select(line => line.TrimEnd('\r')).Where(line => line.Contains("rl1 ", StringComparison.Ordinal)).Select(Of)];
        var reader = new ReportReader(Encoding.ASCII.GetBytes(output), isComplete: true);
        var kinds = new List<ReportKind>();
        while (reader.TryRead(out var line))
        {
            Assert.True(line.IsFrom(reports[kinds.Count].Node));
            kinds.Add(line.Kind);
        }
        Assert.Equal(0, reader.Garbled);
        Assert.Equal(reports.Select(report => KindOf(report.Kind)), kinds);
        return reports;
    }

    private static ReportKind KindOf(string word) => word switch
    {
        "boot" => ReportKind.Boot,
        "reg" => ReportKind.Register,
        "end" => ReportKind.End,
        "rx" => ReportKind.Received,
        "tx" => ReportKind.Sent,
        "sweep" => ReportKind.Sweep,
        "beat" => ReportKind.Beat,
        _ => ReportKind.Other,
    };

    public static Report Of(string line)
    {
        Assert.InRange(line.Length, 1, 120);
        Assert.Matches("^rl1 [a-z]+ [a-z0-9-]+( [A-Za-z0-9-]+)+ \\*[0-9A-F]{2}$", line);
        var text = line[..^4];
        Assert.Equal(CheckOf(text), line[^2..]);
        var words = text.Split(' ');
        return new(words[1], words[2], words[3..]);
    }

    /// <summary>A line with its check value.</summary>
    public static string Line(string text) => $"{text} *{CheckOf(text)}";

    // The message times x^8 modulo x^8 + x^2 + x + 1; a start value of 0xFF is the same as flipping the first eight bits.
    private static string CheckOf(string text)
    {
        var bits = Encoding.ASCII.GetBytes(text).SelectMany(one => Enumerable.Range(0, 8).Select(i => ((one >> (7 - i)) & 1) == 1)).Concat(new bool[8]).ToArray();
        for (var i = 0; i < 8; i++)
            bits[i] = !bits[i];
        for (var i = 0; i < bits.Length - 8; i++)
        {
            if (!bits[i])
                continue;
            foreach (var power in new[] { 0, 6, 7, 8 })
                bits[i + power] = !bits[i + power];
        }
        var rest = bits[^8..].Aggregate(0, (sum, bit) => (sum << 1) | (bit ? 1 : 0));
        return rest.ToString("X2", CultureInfo.InvariantCulture);
    }
}
