using System.Globalization;
using System.Runtime.InteropServices;
using RadioLint;
using RadioLint.Benchmarks;
using RadioLint.Text;
using YamlDotNet.Core;

CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
const string Inside = "--inside-native";
var isNative = args.Contains(Inside);
var budgets = new Budgets();
var status = 0;
#if !NATIVE
var isBoth = !args.Contains("--no-native");
if (isBoth)
    status = NativeBuild.RunMeasurements([.. args, Inside]);
#endif
Console.WriteLine($"{RuntimeInformation.OSDescription}, {RuntimeInformation.ProcessArchitecture}, {Environment.ProcessorCount} cores, .NET {Environment.Version}, {(isNative ? "native build" : "compiled while running")}");
#if !NATIVE
if (isBoth)
{
    GeneratorBudget.Measure(budgets);
    return End();
}
#endif

var small = LargeManifest.WrittenOut(1_000);
var first = Stopwatches.Medians(9, () => BareParse(small), () => Check(small));
budgets.Note($"bare event parse of {Size(small)}", $"{first[0]:0.0} ms");
budgets.AtMost($"check of 1,000 nodes written out, {Size(small)}, in bare parses", first[1] / first[0], 4, "");
budgets.Note("  the same in milliseconds", $"{first[1]:0.0} ms");

var fewer = small;
foreach (var (nodes, factor) in new[] { (5_000, 5.0), (15_000, 3.0) })
{
    var text = LargeManifest.WrittenOut(nodes);
    var smaller = fewer;
    var times = Stopwatches.Medians(5, () => Check(smaller), () => Check(text), () => BareParse(text));
    budgets.AtMost($"check of {nodes:N0} nodes written out, {Size(text)}: growth over the size above, for {factor:0}x the nodes", times[1] / times[0], factor * 1.4, "x");
    budgets.Note("  the same in milliseconds, and in bare parses", $"{times[1]:0} ms, {times[1] / times[2]:0.0}");
    fewer = text;
}

var (tenThousand, hundredThousand) = (LargeManifest.ByEach(10_000), LargeManifest.ByEach(100_000));
var each = Stopwatches.Medians(5, () => Check(tenThousand), () => Check(hundredThousand));
budgets.AtMost("check of 100,000 nodes by `each`: growth over 10,000", each[1] / each[0], 14, "x");
budgets.Note("  the same in milliseconds", $"{each[1]:0} ms");

EmitBudget.Measure(budgets);
FillBudget.Measure(budgets);
if (isNative)
    NativeBudget.Measure(budgets, small);
#if !NATIVE
GeneratorBudget.Measure(budgets);
#endif
return End();

int End()
{
    budgets.Print();
    return status != 0 ? status : args.Contains("--budget") && budgets.AnyMissed ? 1 : 0;
}

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
