namespace RadioLint.Benchmarks;

/// <summary>The native build as a whole process.</summary>
internal static class NativeBudget
{
    public static void Measure(Budgets budgets, string thousandNodes)
    {
        var binary = NativeBuild.Of("src/RadioLint.Cli", "radiolint");
        var example = Path.Combine(NativeBuild.Root(), "docs", "examples", "larkfield-apiary", "larkfield-apiary.radio.yaml");
        budgets.Note("native build, size", $"{new FileInfo(binary).Length / 1024.0 / 1024.0:0.0} MiB");
        budgets.AtMost("check of the example, whole process, native", Stopwatches.Process(21, binary, "check", example), 25, " ms");

        var work = Directory.CreateTempSubdirectory("radiolint-");
        try
        {
            var thousand = Path.Combine(work.FullName, "thousand.radio.yaml");
            File.WriteAllText(thousand, thousandNodes);
            budgets.Note("check of 1,000 nodes written out, whole process, native", $"{Stopwatches.Process(9, binary, "check", thousand):0} ms");
            var most = Path.Combine(work.FullName, "most.radio.yaml");
            File.WriteAllText(most, LargeManifest.WrittenOut(15_000));
            var peak = Stopwatches.PeakMemory(binary, "check", most);
            if (peak > 0)
                budgets.AtMost("peak memory for 15,000 nodes written out, in sizes of the file, native", peak / (double)new FileInfo(most).Length, 20, "x");
        }
        finally
        {
            work.Delete(recursive: true);
        }
    }
}
