using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using CsCheck;
using RadioLint.Emit;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Tests.Firmware.Support;
using Xunit;

namespace RadioLint.Tests.Firmware;

/// <summary>Whatever stands where a name or a unit belongs: the header compiles, and nothing of it becomes code.</summary>
public sealed class HostileNames : IDisposable
{
    private const int Rounds = 16;
    private const int HeadersEach = 20;

    private static readonly string[] Pieces =
    [
        "*/", "/*", "//", "*/int evil;/*", "\"; int evil; \"", "\\", "\\\n", "\n#define evil\n", "??/", "??/\n", "???/", "?", "*", "/", "'", "\"", "%s", "#", "$1", "{{ an evil }}",
        "\r", "\t", "\0", "\u0001", "\u007F", "\u0085", "\u2028", "é", "ß", "İ", "ı", "漢", "\U0001F41D", "\uFEFF", "\uD800", "int", "register", "a", "hive", "-", "_", "__", "0", "9z", " ",
        "radio", "class", "linux", "@", "<!--", "\\param", "!<", "u8", "*\\/", "/\\\n*",
    ];

    private static readonly Gen<string> Hostile = Gen.OneOf(
        Gen.Int[0, Pieces.Length - 1].Select(i => Pieces[i]).Array[1, 4].Select(string.Concat),
        Gen.Char.Array[0, 12].Select(letters => new string(letters)));

    private readonly Workshop shop = new();

    public void Dispose() => shop.Dispose();

    [Fact]
    public async Task Headers_of_hostile_networks_compile_and_hold_no_code_of_theirs()
    {
        var (units, headers, refused) = (new List<string>(), 0, 0);
        var (programs, makefiles) = (new List<string>(), 0);
        foreach (var shared in new[] { EmitSet.ContractFile, EmitSet.LinkFile, "radio_report.h" })
            shop.Write(shared, Emitted.WithPrograms(Emitted.Apiary)[shared]);
        foreach (var batch in Drawn(Hostile.Array[8].Array[HeadersEach], Rounds))
        {
            var text = new StringBuilder();
            foreach (var words in batch)
            {
                var files = EmitSet.Of(Hostilely(words, headers + refused), new() { Programs = true }).Files;
                if (files.IsEmpty)
                {
                    // Two of its names become one, or one begins like the contract's.
                    refused++;
                    continue;
                }
                var header = files.Single(file => file.Name.EndsWith("_radio.h", StringComparison.Ordinal) && file.Name != "hall_radio.h");
                var name = string.Create(CultureInfo.InvariantCulture, $"hostile_{headers++}.h");
                Assert.All(files, file => Assert.DoesNotMatch("[^\n\t -~]", file.Text));
                shop.Write(name, header.Text);
                if (headers % 8 == 0)
                {
                    shop.Write(header.Name, header.Text);
                    foreach (var program in files.Where(file => file.Name.EndsWith(".c", StringComparison.Ordinal) && !file.Name.StartsWith("hall", StringComparison.Ordinal)))
                        programs.Add(Path.GetFileName(shop.Write(program.Name, program.Text)));
                    shop.Write("Makefile", files.Single(file => file.Name == "Makefile").Text);
                    // Nothing is built, so that only what runs while make reads could be heard.
                    Assert.DoesNotMatch("evil|No rule|\\*\\*\\*", await shop.MustRun("make", "-n", "clean"));
                    makefiles++;
                }
                text.Append("#include \"").Append(name).Append("\"\n");
            }
            var unit = string.Create(CultureInfo.InvariantCulture, $"unit_{units.Count}");
            shop.Write(unit + ".c", text + "typedef int nothing;\n");
            shop.Write(unit + ".cpp", text + "typedef int nothing;\n");
            units.Add(unit);
        }

        string[] warnings = ["-Wall", "-Wextra", "-Wpedantic", "-Wundef", "-Werror", "-ffreestanding", "-I.", "-fsyntax-only"];
        await Task.WhenAll(
            shop.MustRun("gcc", ["-std=c99", .. warnings, .. units.Select(unit => unit + ".c")]),
            shop.MustRun("g++", ["-std=c++11", .. warnings, .. units.Select(unit => unit + ".cpp")]));
        await shop.MustRun("gcc", ["-std=c99", .. warnings, .. programs]);
        Assert.True(programs.Count >= 40 && makefiles >= 20, string.Create(CultureInfo.InvariantCulture, $"{programs.Count} programs, {makefiles} makefiles"));
        // Without comments: every piece that carries the word has other words about it, so alone it can only stand where it broke out.
        var code = await shop.MustRun("gcc", ["-std=c99", "-fpreprocessed", "-E", "-P", .. Enumerable.Range(0, headers).Select(i => string.Create(CultureInfo.InvariantCulture, $"hostile_{i}.h")), .. programs]);
        // A program spells its node's name in a string.
        Assert.DoesNotMatch(@"\bevil\b", Regex.Replace(code, """
            "(\\.|[^"\\\n])*"
            """, ""));
        Assert.Contains("evil", code, StringComparison.Ordinal);
        Assert.True(headers >= 200, string.Create(CultureInfo.InvariantCulture, $"{headers} headers, {refused} refused"));
    }

    [Fact]
    public async Task Comments_strings_and_identifiers_hold_what_they_are_given()
    {
        var code = new StringBuilder("#include <string.h>\n");
        var (main, count) = (new StringBuilder(), 0);
        foreach (var word in Drawn(Hostile, 600))
        {
            var bytes = Encoding.UTF8.GetBytes(word);
            var name = string.Create(CultureInfo.InvariantCulture, $"{C.Identifier(word)}_{count++}");
            code.Append(CultureInfo.InvariantCulture, $"/*{C.InComment(word)}*/\n//{C.InComment(word)}\n");
            code.Append(CultureInfo.InvariantCulture, $"static const char {name}[] = {C.Quoted(word)};\nstatic const unsigned char {name}_bytes[] = {{ {string.Concat(bytes.Select(one => $"{one}, "))}0 }};\n");
            code.Append(CultureInfo.InvariantCulture, $"struct {name}_s {{ int {C.Member(word)}; }};\n");
            main.Append(CultureInfo.InvariantCulture, $"    wrong += sizeof {name} != sizeof {name}_bytes || memcmp({name}, {name}_bytes, sizeof {name}) != 0;\n");
        }
        code.Append("int main(void)\n{\n    int wrong = 0;\n").Append(main).Append("    return wrong;\n}\n");
        shop.Write("words.c", code.ToString());
        shop.Write("words.cpp", code.ToString());
        await shop.MustRun("gcc", "-std=c99", "-Wall", "-Wextra", "-Wpedantic", "-Werror", "words.c", "-o", "words");
        await shop.MustRun(Path.Combine(shop.Folder, "words"));
        await shop.MustRun("g++", "-std=c++11", "-Wall", "-Wextra", "-Wpedantic", "-Werror", "words.cpp", "-o", "words");
        await shop.MustRun(Path.Combine(shop.Folder, "words"));
    }

    // The same draws in every run, so that a failure can be looked at again.
    private static IEnumerable<T> Drawn<T>(Gen<T> gen, int count)
    {
        var random = PCG.Parse("0000KOXvPPr1");
        for (var i = 0; i < count; i++)
            yield return gen.Generate(random, null, out _);
    }

    private const string Plain = """
        radiolint: 1
        network: field
        region: GB
        air: { channel: 74, rate: 1 Mbps }
        all-nodes: { wires: 5 cm, supply: { from: adapter, input: 5 V, capacitor: 10 uF ceramic } }
        nodes:
          hall: { board: atmega2560, pins: { ce: D48, csn: D49 } }
          post: { board: atmega328p, pins: { ce: D9, csn: D10 } }
        links: [ { from: post, to: hall, payload: reading, every: 1 min } ]
        payloads:
          reading: { level: int16 0.1 degC in -1..1, flags: { bits: { a: 3, b: 2 } }, state: { uint8: [shut, ajar] } }
        """;

    // The reader refuses such names, so they are put into the model behind its back: what comes after must be safe by itself.
    private static Network Hostilely(string[] words, int serial)
    {
        var network = Emitted.Network("field.radio.yaml", Plain);
        var (hall, post) = (network.Nodes[0], network.Nodes[1]);
        post = post with
        {
            Name = string.Create(CultureInfo.InvariantCulture, $"{words[2]}x{serial}"),
            Board = post.Board! with { Name = words[1], Chip = words[1] },
            Part = post.Part! with { Name = words[0] },
        };
        var reading = network.Payloads[0];
        var (level, flags, state) = (reading.Fields[0], reading.Fields[1], reading.Fields[2]);
        reading = reading with
        {
            Name = words[3],
            Fields =
            [
                level with { Name = words[4], Unit = words[5], Role = words[0] },
                flags with { Name = words[6], Bits = [flags.Bits[0] with { Name = words[7] }, flags.Bits[1] with { Name = words[5] }] },
                state with { Choices = [words[4], words[6]] },
            ],
        };
        var link = new Link
        {
            Place = network.Links[0].Place, FromText = words[2], ToText = "hall", From = [post], To = [hall],
            Payload = reading, PayloadName = new(words[3], reading.Place), Every = network.Links[0].Every,
        };
        var hop = new Hop { Link = link, Sender = post, Receiver = hall };
        return new()
        {
            Source = new(words[1] + "/" + words[0], Plain), Place = network.Place, Name = new(words[0], network.Place), Band = network.Band, Air = network.Air,
            Neighbours = network.Neighbours, Nodes = [hall, post], Links = [link], Hops = [hop], Payloads = [reading], Rules = network.Rules,
            Plan = Planner.Plan(words[0], [hall, post], [hop]),
        };
    }
}
