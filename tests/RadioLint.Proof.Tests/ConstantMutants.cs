using System.Globalization;
using System.Text.RegularExpressions;
using Proof;
using RadioLint.Tests.Proof.Host;
using Xunit;

namespace RadioLint.Tests.Proof;

/// <summary>Every constant of a header that concerns the radio, changed by one step.</summary>
public sealed partial class ConstantMutants
{
    public static TheoryData<string> All() => ExampleNetworks.All();

    [Theory, MemberData(nameof(All))]
    public async Task Every_constant_a_step_off_is_noticed(string path)
    {
        var network = Networks.Judge(await File.ReadAllTextAsync(Path.Combine(Networks.Root, path), TestContext.Current.CancellationToken));
        var (mutants, elsewhere) = (0, 0);
        foreach (var (name, node) in network.Nodes)
        {
            foreach (Match line in Line().Matches(node.Header))
            {
                var constant = line.Groups[1].Value[(node.Ident.Length + 1)..];
                if (HeaderJudge.IsHeldElsewhere(constant, node))
                {
                    elsewhere++;
                    continue;
                }
                foreach (Match number in Number().Matches(line.Groups[2].Value))
                {
                    var at = line.Groups[2].Index + number.Index;
                    var changed = node.Header[..at] + Next(number.Value) + node.Header[(at + number.Length)..];
                    mutants++;
                    Assert.True(HeaderJudge.Faults(new(node.Ident, changed), network.Expected[name]).Any(), $"{name}: {constant} as {Next(number.Value)} is not noticed");
                }
            }
        }
        TestContext.Current.TestOutputHelper?.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{mutants} mutants of constants, all noticed; {elsewhere} constants (pins, SPI, sleep, fingerprints, fields of payloads) are other tests'"));
        Assert.True(mutants > 20 * network.Nodes.Count / 2);
    }

    private static string Next(string number) => number.StartsWith("0x", StringComparison.Ordinal)
        ? $"0x{(Convert.ToInt32(number[2..], 16) + 1) & 0xFF:X2}"
        : (long.Parse(number, CultureInfo.InvariantCulture) + 1).ToString(CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^#define ([A-Z0-9_]+) (.+?)(?: /\*.*\*/)?$", RegexOptions.Multiline)]
    private static partial Regex Line();

    [GeneratedRegex("0x[0-9A-F]+|[0-9]+")]
    private static partial Regex Number();
}
