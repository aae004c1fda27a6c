using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;
using RadioLint.Tests.Firmware.Support;
using Xunit;

namespace RadioLint.Tests.Proof.Host;

/// <summary>From headers to a shared object.</summary>
public static class HostBuild
{
    /// <summary>Compiles the headers of one or several networks together; the shared ones are the same for all.</summary>
    public static async Task<HostProgram> Build(Workshop shop, string name, IEnumerable<(string Name, string Text)> shared, IReadOnlyList<EmittedNode> nodes)
    {
        foreach (var (file, text) in shared)
            shop.Write($"{name}/{file}", text);
        var source = new StringBuilder(await File.ReadAllTextAsync(Path.Combine(Folder(), "host.c"), TestContext.Current.CancellationToken));
        foreach (var node in nodes)
        {
            shop.Write($"{name}/{node.Ident}_radio.h", node.Header);
            source.Append(CultureInfo.InvariantCulture, $"#include \"{node.Ident}_radio.h\"\n");
        }
        var calls = nodes.SelectMany(node => node.Functions.Select(function => (node.Ident + "_" + function, function == "verify"))).ToList();
        foreach (var (function, hasResult) in calls)
            source.Append(CultureInfo.InvariantCulture, $"static uint8_t call_{function}(void) {{ {(hasResult ? $"return {function}();" : $"{function}(); return 0u;")} }}\n");
        source.Append(CultureInfo.InvariantCulture, $"static uint8_t (*const calls[])(void) = {{ {string.Join(", ", calls.Select(call => "call_" + call.Item1))} }};\n");
        source.Append(CultureInfo.InvariantCulture, $"static const struct table tables[] = {{ {string.Join(", ", nodes.SelectMany(node => node.Tables.Select(table => $"{{ {node.Ident}_{table}, sizeof {node.Ident}_{table} }}")))} }};\n");
        source.Append("#include \"host_end.h\"\n");
        shop.Write($"{name}/host_end.h", await File.ReadAllTextAsync(Path.Combine(Folder(), "host_end.h"), TestContext.Current.CancellationToken));
        var path = shop.Write($"{name}/{name}.c", source.ToString());
        var output = Path.Combine(shop.Folder, name, name + ".so");
        await shop.MustRun("gcc", "-std=c99", "-O0", "-w", "-fPIC", "-shared", "-I", Path.GetDirectoryName(path)!, path, "-o", output);
        return new HostProgram(output, nodes);
    }

    private static string Folder([CallerFilePath] string path = "") => Path.GetDirectoryName(path)!;
}
