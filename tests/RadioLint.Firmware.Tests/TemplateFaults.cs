using System.Text.RegularExpressions;
using RadioLint.Emit;
using RadioLint.Findings;
using RadioLint.Tests.Firmware.Support;
using Scriban.Runtime;
using Xunit;

namespace RadioLint.Tests.Firmware;

/// <summary>RL8203: what is wrong with a template, and where; and that nothing is rendered then.</summary>
public sealed class TemplateFaults
{
    [Theory]
    // Names that do not exist: variables, members, functions, neighbours.
    [InlineData("a\n  {{ nod }}\n", 2, 6, "the template uses `nod`, which does not exist here", "write `node`")]
    [InlineData("{{ pins.titel }}", 1, 9, "the template uses `titel`, which does not exist here", "write `title`")]
    [InlineData("{{ for f in table.frames }}{{ f.byts }}{{ end }}", 1, 33, "the template uses `byts`, which does not exist here", "write `bytes`")]
    [InlineData("{{ node | uper }}", 1, 11, "the template uses `uper`, which does not exist here", "write `upper`")]
    [InlineData("{{ include 'constant.sbn' identity }}", 1, 4, "the template uses `constant.sbn`, which does not exist here", "write `constants.sbn`")]
    [InlineData("{{ zzzzzzzzz }}", 1, 4, "the template uses `zzzzzzzzz`, which does not exist here", "use a name of docs/templates.md")]
    [InlineData("{{ if nod == 1 }}{{ end }}", 1, 7, "the template uses `nod`, which does not exist here", "write `node`")]
    // What the engine would bring along, were it left to.
    [InlineData("{{ date.now }}", 1, 4, "the template uses `date`, which does not exist here", "*")]
    [InlineData("{{ object.eval '1' }}", 1, 4, "the template uses `object`, which does not exist here", "*")]
    [InlineData("{{ include '../../secret' }}", 1, 4, "the template uses `../../secret`, which does not exist here", "*")]
    [InlineData("{{ include '/etc/hostname' }}", 1, 4, "the template uses `/etc/hostname`, which does not exist here", "*")]
    // Bounds.
    [InlineData("{{ while true }}{{ end }}", 1, 4, "exceeding number of iteration limit `100000` for loop statement", "mend the template at this place")]
    [InlineData("{{ func f; f; end; f }}", 1, 12, "exceeding number of recursive depth limit `32` for node: `f`", "mend the template at this place")]
    [InlineData("{{ include 'node_radio.h.sbn' }}", 1, 4, "*", "mend the template at this place")]
    [InlineData("{{ 'abcdefgh' * 1000000 }}", 1, 17, "string multiplication exceeds LimitToString `1048576`", "mend the template at this place")]
    [InlineData("{{ for i in 1..90000 }}0123456789ABCDEF\n{{ end }}", 1, 24, "the file grows beyond 1048576 bytes here", "look for a loop that repeats too much")]
    // What does not parse.
    [InlineData("{{ for x in }}", 1, 13, "*", "mend the template at this place")]
    [InlineData("a\n{{ if node }}\n", 2, 14, "*", "mend the template at this place")]
    public void Says_where_and_what(string text, int line, int column, string message, string help)
    {
        var set = EmitSet.Of(Emitted.Network(Emitted.Apiary), new() { Template = name => name == "node_radio.h.sbn" ? text : null });
        var finding = Assert.Single(set.Findings);
        Assert.Equal(("RL8203", Severity.Error, "node_radio.h.sbn"), (finding.Rule.Id, finding.Severity, finding.Place.Source.Name));
        if (message != "*")
            Assert.Equal(message, finding.Message);
        if (help != "*")
            Assert.Equal(help, finding.Help);
        Assert.Equal((line, column), (finding.Place.From.Line, finding.Place.From.Column));
        Assert.True(finding.Place.Length > 0 && !finding.Message.Contains('\n') && !finding.Message.EndsWith('.'));
        Assert.Empty(set.Files);
        Assert.Null(set.Issue);
    }

    [Fact]
    public void A_fault_in_a_neighbour_stands_in_the_neighbour()
    {
        var set = EmitSet.Of(Emitted.Network(Emitted.Apiary), new() { Template = name => name == "constants.sbn" ? "\n{{ for c in $1 }}{{ c.nam }}{{ end }}" : null });
        var finding = Assert.Single(set.Findings);
        Assert.Equal("constants.sbn:2:23", finding.Place.ToString());
        var broken = EmitSet.Of(Emitted.Network(Emitted.Apiary), new() { Template = name => name == "frames.sbn" ? "x\n{{ for }}" : null });
        Assert.StartsWith("frames.sbn:2:", Assert.Single(broken.Findings).Place.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Every_misspelt_name_of_the_built_in_templates_is_found()
    {
        var networks = new[] { Emitted.Bench, Emitted.Apiary, Emitted.Store }.Select(path => Emitted.Network(path)).ToList();
        var tried = 0;
        foreach (var name in Templates.Names)
        {
            var text = Templates.BuiltIn[name]!;
            foreach (Match use in Regex.Matches(text, @"(?<=\{\{ )(?:\$1\.|\w+\.)?([a-z_]+)(?= \}\})"))
            {
                var word = use.Groups[1];
                if (word.Value is "end" or "else")
                    continue;
                var wrong = text[..word.Index] + word.Value + "z" + text[(word.Index + word.Length)..];
                var findings = networks.SelectMany(network => EmitSet.Of(network, new() { Programs = true, Template = asked => asked == name ? wrong : null }).Findings).ToList();
                Assert.True(findings.Count > 0, $"{name}: {word.Value}z");
                Assert.All(findings, finding => Assert.Equal($"the template uses `{word.Value}z`, which does not exist here", finding.Message));
                tried++;
            }
        }
        Assert.InRange(tried, 100, 400);
    }

    [Fact]
    public void A_renderer_goes_on_after_a_fault()
    {
        var renderer = new Renderer(new(name => name switch { "good" => "{{ upper 'hive' }}\r\n{{ quoted 'a\"??/' }}", "bad" => "{{ for i in 1..3 }}{{ missing }}{{ end }}", _ => null }));
        for (var i = 0; i < 3; i++)
        {
            Assert.Null(renderer.Render("bad", new ScriptObject()).Text);
            Assert.Equal("HIVE\n\"a\\\"\\?\\?/\"", renderer.Render("good", new ScriptObject()).Text);
        }
    }

    [Fact]
    public void Many_renderings_do_not_add_up_to_a_limit()
    {
        var renderer = new Renderer(new(name => "{{ for i in 1..60000 }}0123456789{{ end }}"));
        Assert.All(Enumerable.Range(0, 5), _ => Assert.Equal(600_000, renderer.Render("x", new ScriptObject()).Text?.Length));
    }

    [Fact]
    public void Overrides_count_file_by_file()
    {
        var network = Emitted.Network(Emitted.Apiary);
        var plain = Emitted.Files(network);
        var changed = Emitted.Files(network, new() { Template = name => name == "frames.sbn" ? "\uFEFF/* mine */\r\n" + Templates.BuiltIn[name] : null });
        Assert.Equal(plain.Select(file => file.Name), changed.Select(file => file.Name));
        foreach (var (before, after) in plain.Zip(changed))
        {
            if (before.Name is EmitSet.ContractFile or EmitSet.LinkFile)
                Assert.Equal(before.Text, after.Text);
            else
                Assert.Equal(before.Text.Replace("static const uint8_t", "/* mine */\nstatic const uint8_t", StringComparison.Ordinal), after.Text);
        }
    }

    [Fact]
    public void Built_in_templates_end_lines_with_LF_and_are_plain_ASCII() =>
        Assert.All(Templates.Names, name => Assert.DoesNotMatch(name == "Makefile.sbn" ? "[^\n\t -~]" : "[^\n -~]", Templates.BuiltIn[name]!));
}
