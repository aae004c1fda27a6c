using System.Text.Json;
using Json.Schema;
using RadioLint.Hardware;
using RadioLint.Manifest;
using RadioLint.Tests.Support;
using Xunit;
using Judge = Json.Schema.JsonSchema;
using OurSchema = RadioLint.Manifest.JsonSchema;

namespace RadioLint.Tests.Hardware;

/// <summary>
/// The shipped data files, judged by a validator that knows nothing of the reader (JSON Schema 2020-12), against schemas written from
/// the tables of their keys. Each file is also spoiled, so that a schema which takes anything would show.
/// </summary>
public sealed class DataFileSchemaTests
{
    private static readonly Dictionary<IMapShape, Judge> Schemas = DataFiles.Tables.ToDictionary(table => table.Shape, table => Judge.FromText(OurSchema.Of(table.Shape)));

    public static TheoryData<string> Files() => [.. DataFile.NamesIn("").Select(name => name + ".yaml")];

    [Fact]
    public void There_are_files_to_judge()
    {
        Assert.All(DataFiles.Tables, table => Assert.Contains(Files().Select(row => row.Data), file => file.StartsWith(table.Prefix, StringComparison.Ordinal)));
        Assert.Equal(29, Files().Count);
    }

    [Fact]
    public void They_are_schemas_themselves()
    {
        foreach (var (_, shape) in DataFiles.Tables)
        {
            using var schema = JsonDocument.Parse(OurSchema.Of(shape));
            Assert.True(MetaSchemas.Draft202012.Evaluate(schema.RootElement).IsValid, shape.What);
        }
    }

    [Theory, MemberData(nameof(Files))]
    public void It_takes_the_file(string file) => Assert.True(Takes(file, Whole(file)), file);

    [Theory, MemberData(nameof(Files))]
    public void It_refuses_a_key_that_no_table_has(string file)
    {
        var text = Whole(file);
        Assert.False(Takes(file, "{\"clok\": \"16 MHz\", " + text.TrimStart()[1..]), file);
    }

    // The figures of one kind put in the stead of another kind's: each replaced value must stand in the file.
    [Theory]
    [InlineData("Hardware/boards/atmega328p.yaml", "\"clock\": \"16 MHz\"", "\"clock\": \"16 mA\"")]
    [InlineData("Hardware/boards/atmega328p.yaml", "\"clock\": \"16 MHz\"", "\"clock\": \"16MHz\"")]
    [InlineData("Hardware/boards/atmega328p.yaml", "\"clock\": \"16 MHz\"", "\"clok\": \"16 MHz\"")]
    [InlineData("Hardware/boards/atmega328p.yaml", "\"is\": \"6 V\"", "\"is\": \"6 mA\"")]
    [InlineData("Hardware/boards/atmega328p.yaml", "\"supply\": \"1.8 V\"", "\"suply\": \"1.8 V\"")]
    [InlineData("Hardware/radios/nRF24L01+.yaml", "\"is\": \"60 ppm\"", "\"is\": \"60 MHz\"")]
    [InlineData("Hardware/radios/nRF24L01+.yaml", "\"strongest\":", "\"strngest\":")]
    [InlineData("Hardware/radios/nRF24L01+.yaml", "\"reset\": \"0x08\"", "\"reset\": \"8 bits\"")]
    [InlineData("Hardware/front-ends.yaml", "\"gain\": {\"is\": \"25 dB\"", "\"gain\": {\"is\": \"25 dBm\"")]
    [InlineData("Hardware/modules.yaml", "\"seen-from\":", "\"seenfrom\":")]
    [InlineData("Hardware/regulators.yaml", "\"output\": {\"is\": \"3.3 V\"", "\"output\": {\"is\": \"3.3 mA\"")]
    [InlineData("Hardware/regulators.yaml", "\"dropout\": {", "\"drop-out\": {")]
    [InlineData("Hardware/cells.yaml", "\"capacity\": {\"is\": \"2900 mAh\"", "\"capacity\": {\"is\": \"2900 mA\"")]
    [InlineData("Hardware/cells.yaml", "\"fresh\": {\"is\": \"1.6 V\", \"source\"", "\"fresh\": {\"is\": \"1.6 V\", \"sources\"")]
    [InlineData("Hardware/bus-devices.yaml", "\"is\":", "\"as\":")]
    [InlineData("Spectrum/bands.yaml", "\"limit\": \"10 dBm\"", "\"limit\": \"10 dBi\"")]
    [InlineData("Spectrum/neighbours.yaml", "\"first\":", "\"frist\":")]
    [InlineData("Spectrum/countries.yaml", "\"count\":", "\"cuont\":")]
    public void It_refuses_a_misspelt_key_and_a_wrong_unit(string file, string right, string wrong)
    {
        var text = Whole(file);
        var at = text.IndexOf(right, StringComparison.Ordinal);
        Assert.True(at >= 0, $"{file} has no {right}");
        Assert.False(Takes(file, text[..at] + wrong + text[(at + right.Length)..]), $"{file} with {wrong}");
    }

    private static string Whole(string file) => Rewriting.ToJson(DataFile.Load(file), Rewriting.AsWritten);

    private static bool Takes(string file, string json)
    {
        using var instance = JsonDocument.Parse(json);
        return Schemas[DataFiles.Tables.Single(table => file.StartsWith(table.Prefix, StringComparison.Ordinal)).Shape].Evaluate(instance.RootElement).IsValid;
    }
}
