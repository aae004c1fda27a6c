using System.Text.Json;
using Json.Schema;
using RadioLint.Hardware;
using RadioLint.Hardware.Keys;
using RadioLint.Manifest;
using RadioLint.Manifest.Keys;
using RadioLint.Spectrum;
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
    private static readonly (string Prefix, IMapShape Shape)[] Tables =
    [
        ("Hardware/boards/", BoardKeys.Profile),
        ("Hardware/radios/", RadioPartKeys.File),
        ("Hardware/front-ends.yaml", FrontEndKeys.File),
        ("Hardware/modules.yaml", ModuleKindKeys.File),
        ("Hardware/regulators.yaml", RegulatorKeys.File),
        ("Hardware/cells.yaml", CellKindKeys.File),
        ("Hardware/bus-devices.yaml", BusDeviceKeys.File),
        ("Spectrum/bands.yaml", BandKeys.File),
        ("Spectrum/neighbours.yaml", NeighbourPlanKeys.File),
    ];

    private static readonly Dictionary<IMapShape, Judge> Schemas = Tables.ToDictionary(table => table.Shape, table => Judge.FromText(OurSchema.Of(table.Shape)));

    // The list of country codes has one key and no figure.
    public static TheoryData<string> Files() =>
        [.. DataFile.NamesIn("").Where(name => name != "Spectrum/countries").Select(name => name + ".yaml")];

    [Fact]
    public void There_are_files_to_judge()
    {
        Assert.All(Tables, table => Assert.Contains(Files().Select(row => row.Data), file => file.StartsWith(table.Prefix, StringComparison.Ordinal)));
        Assert.Equal(28, Files().Count);
    }

    [Fact]
    public void They_are_schemas_themselves()
    {
        foreach (var (_, shape) in Tables)
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
        return Schemas[Tables.Single(table => file.StartsWith(table.Prefix, StringComparison.Ordinal)).Shape].Evaluate(instance.RootElement).IsValid;
    }
}
