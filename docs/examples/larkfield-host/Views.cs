using System.Globalization;

namespace Larkfield.Host;

/// <summary>A line a reading, for files and pipes.</summary>
internal sealed class PlainLines(TextWriter output) : IHiveView
{
    public void Show(HiveState hive) => output.WriteLine(string.Create(
        CultureInfo.InvariantCulture,
        $"{hive.Hive}  {hive.WeightGrams / 1000:0.000} kg  {hive.TemperatureCelsius:0.00} degC  {hive.BatteryMillivolts / 1000:0.000} V{(hive.Missed > 0 ? $"  {hive.Missed} missed" : "")}"));

    public void Say(string line) => output.WriteLine(line);
}

/// <summary>One row a hive, rewritten in place, for a person at a terminal.</summary>
internal sealed class LiveTable(TextWriter output) : IHiveView
{
    private const string ClearToEnd = "\u001b[K";
    private readonly SortedDictionary<string, HiveState> hives = new(StringComparer.Ordinal);
    private string said = "";
    private int drawn;

    public void Show(HiveState hive)
    {
        hives[hive.Hive] = hive;
        Draw();
    }

    public void Say(string line)
    {
        said = line;
        Draw();
    }

    private void Draw()
    {
        if (drawn > 0)
            output.Write(string.Create(CultureInfo.InvariantCulture, $"\u001b[{drawn}A"));
        Line($"{"hive",-10} {"weight",10} {"inside",10} {"battery",9} {"missed",7}");
        foreach (var hive in hives.Values)
        {
            Line(string.Create(
                CultureInfo.InvariantCulture,
                $"{hive.Hive,-10} {hive.WeightGrams / 1000,7:0.000} kg {hive.TemperatureCelsius,5:0.0} degC {hive.BatteryMillivolts / 1000,7:0.00} V {hive.Missed,7}"));
        }
        Line(said);
        drawn = hives.Count + 2;
    }

    private void Line(string text) => output.WriteLine(text + ClearToEnd);
}
