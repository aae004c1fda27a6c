using System.Globalization;
using System.Runtime.InteropServices;
using RadioLint;
using RadioLint.Benchmarks;
using RadioLint.Text;
using YamlDotNet.Core;

CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
const string Inside = "--inside-native";
var isNative = !args.Contains("--no-native");
if (isNative && !args.Contains(Inside))
    return NativeBuild.RunMeasurements([.. args, Inside]);
var budgets = new Budgets();
var isBudget = args.Contains("--budget");
Console.WriteLine($"{RuntimeInformation.OSDescription}, {RuntimeInformation.ProcessArchitecture}, {Environment.ProcessorCount} cores, .NET {Environment.Version}, {(isNative ? "native build" : "compiled while running")}");

var small = LargeManifest.WrittenOut(1_000);
var bare = Stopwatches.Median(9, () => BareParse(small));
var check = Stopwatches.Median(9, () => Check(small));
budgets.Note($"bare event parse of {Size(small)}", $"{bare:0.0} ms");
budgets.AtMost($"check of 1,000 nodes written out, {Size(small)}, in bare parses", check / bare, 4, "");
budgets.Note("  the same in milliseconds", $"{check:0.0} ms");

var previous = check;
foreach (var (nodes, factor) in new[] { (5_000, 5.0), (15_000, 3.0) })
{
    var text = LargeManifest.WrittenOut(nodes);
    var time = Stopwatches.Median(3, () => Check(text));
    budgets.AtMost($"check of {nodes:N0} nodes written out, {Size(text)}: growth over the row above, for {factor:0}x the nodes", time / previous, factor * 1.4, "x");
    budgets.Note("  the same in milliseconds, and in bare parses", $"{time:0} ms, {time / Stopwatches.Median(3, () => BareParse(text)):0.0}");
    previous = time;
}

var tenThousand = LargeManifest.ByEach(10_000);
var hundredThousand = LargeManifest.ByEach(100_000);
var ten = Stopwatches.Median(5, () => Check(tenThousand));
var hundred = Stopwatches.Median(3, () => Check(hundredThousand));
budgets.AtMost("check of 100,000 nodes by `each`: growth over 10,000", hundred / ten, 14, "x");
budgets.Note("  the same in milliseconds", $"{hundred:0} ms");

EmitBudget.Measure(budgets);
if (isNative)
    NativeBudget.Measure(budgets, small);
budgets.Print();
return isBudget && budgets.AnyMissed ? 1 : 0;

static void BareParse(string text)
{
    var parser = new Parser(new Scanner(new StringReader(text), skipComments: true));
    while (parser.MoveNext())
    {
    }
}

static void Check(string text)
{
    var result = Linter.Check(new SourceText("measured.radio.yaml", text));
    var fault = result.Findings.FirstOrDefault(finding => finding.Severity is RadioLint.Findings.Severity.Error);
    if (fault is not null)
        throw new InvalidOperationException($"{fault.Place} {fault.Rule.Id} {fault.Message}");
}

static string Size(string text) => $"{text.Length / 1024.0 / 1024.0:0.0} MiB";
