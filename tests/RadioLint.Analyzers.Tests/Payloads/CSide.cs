using System.Globalization;
using System.Text;
using RadioLint.Emit;
using RadioLint.Model;

namespace RadioLint.Tests.Analyzers.Payloads;

/// <summary>
/// A C program about an emitted header. It reads commands from a file, one a line, and answers each with one: `E n WORDS` encodes payload n,
/// `D n HEX` decodes it. `refused` is an answer too.
/// </summary>
public static class CSide
{
    private const string Start = """
        #include <stdio.h>
        #include <stdlib.h>
        #include <string.h>
        #include "far_radio.h"
        void radio_select(void) {}
        void radio_release(void) {}
        uint8_t radio_exchange(uint8_t out) { return out; }
        void radio_ce_level(uint8_t high) { (void)high; }
        void radio_wait_us(uint16_t us) { (void)us; }
        static char *word(void) { char *next = strtok(NULL, " \n"); if (!next) { fputs("too few words\n", stderr); exit(2); } return next; }
        static int digit(char c) { return c <= '9' ? c - '0' : c - 'A' + 10; }
        static unsigned unhex(const char *text, unsigned char *to, unsigned room)
        {
            unsigned count = 0;
            if (text[0] == '-') { return 0; }
            for (; text[0] && count < room; text += 2) { to[count++] = (unsigned char)(digit(text[0]) * 16 + digit(text[1])); }
            return count;
        }
        static void hex(const void *bytes, unsigned count)
        {
            unsigned i;
            if (count == 0) { putchar('-'); }
            for (i = 0; i < count; ++i) { printf("%02X", ((const unsigned char *)bytes)[i]); }
        }
        static float read_float(void) { uint32_t bits = (uint32_t)strtoul(word(), NULL, 16); float value; memcpy(&value, &bits, 4); return value; }
        static void write_float(float value) { uint32_t bits; memcpy(&bits, &value, 4); printf(" %08lX", (unsigned long)bits); }

        """;

    private const string End = """
        int main(int count, char **arguments)
        {
            static char line[4096];
            FILE *file = fopen(arguments[1], "r");
            (void)count;
            while (file && fgets(line, sizeof line, file)) {
                const char kind = strtok(line, " \n")[0];
                const int index = atoi(word());
                (kind == 'E' ? encoders : decoders)[index]();
                putchar('\n');
            }
            return file ? 0 : 1;
        }

        """;

    public static string Program(IReadOnlyList<Payload> payloads)
    {
        var text = new StringBuilder(Start);
        for (var i = 0; i < payloads.Count; i++)
            Write(text, payloads[i], i);
        var all = Enumerable.Range(0, payloads.Count).ToList();
        text.Append(CultureInfo.InvariantCulture, $"static void (*const encoders[])(void) = {{ {string.Join(", ", all.Select(i => $"encode_{i}"))} }};\n");
        text.Append(CultureInfo.InvariantCulture, $"static void (*const decoders[])(void) = {{ {string.Join(", ", all.Select(i => $"decode_{i}"))} }};\n");
        return text.Append(End).ToString();
    }

    private static void Write(StringBuilder text, Payload payload, int index)
    {
        var (name, upper) = ($"far_{C.Identifier(payload.Name)}", $"FAR_{C.Upper(C.Identifier(payload.Name))}");
        var fields = payload.Fields.Where(field => field.Constant is null).ToList();
        var has = fields.Count > 0;
        text.Append(CultureInfo.InvariantCulture, $$"""
            static void encode_{{index}}(void)
            {
                uint8_t bytes[{{upper}}_LENGTH];
                {{(has ? $"struct {name} from; memset(&from, 0, sizeof from);" : "")}}
            {{string.Concat(fields.SelectMany(Reads).Select(line => "    " + line + "\n"))}}
                if ({{name}}_encode(bytes{{(has ? ", &from" : "")}})) { hex(bytes, sizeof bytes); } else { fputs("refused", stdout); }
            }
            static void decode_{{index}}(void)
            {
                uint8_t bytes[64];
                {{(has ? $"struct {name} to;" : "")}}
                const unsigned count = unhex(word(), bytes, sizeof bytes);
                if (!{{name}}_decode({{(has ? "&to, " : "")}}bytes, (uint8_t)count)) { fputs("refused", stdout); return; }
                fputs("read", stdout);
            {{string.Concat(fields.SelectMany(Writes).Select(line => "    " + line + "\n"))}}
            }

            """);
    }

    private static IEnumerable<string> Reads(Field field)
    {
        var member = "from." + C.Member(field.Name);
        if (field.Kind is FieldKind.Bits)
            return field.Bits.Select(run => $"{member}.{C.Member(run.Name)} = ({C.WidthType(run.Width)})strtoull(word(), NULL, 10);");
        return Items(field).Select(item => field.Kind switch
        {
            FieldKind.Float => $"{member}{item} = read_float();",
            FieldKind.Text => string.Create(CultureInfo.InvariantCulture, $"unhex(word(), (unsigned char *){member}{item}, {field.ItemSize + 1}u);"),
            FieldKind.Bytes => string.Create(CultureInfo.InvariantCulture, $"unhex(word(), {member}{item}, {field.ItemSize}u);"),
            _ => field.IsSigned ? string.Create(CultureInfo.InvariantCulture, $"{member}{item} = (int{field.ItemSize * 8}_t)strtoll(word(), NULL, 10);")
                : string.Create(CultureInfo.InvariantCulture, $"{member}{item} = (uint{field.ItemSize * 8}_t)strtoull(word(), NULL, 10);"),
        });
    }

    private static IEnumerable<string> Writes(Field field)
    {
        var member = "to." + C.Member(field.Name);
        if (field.Kind is FieldKind.Bits)
            return field.Bits.Select(run => $"printf(\" %lu\", (unsigned long){member}.{C.Member(run.Name)});");
        return Items(field).Select(item => field.Kind switch
        {
            FieldKind.Float => $"write_float({member}{item});",
            FieldKind.Text => $"putchar(' '); hex({member}{item}, (unsigned)strlen({member}{item}));",
            FieldKind.Bytes => string.Create(CultureInfo.InvariantCulture, $"putchar(' '); hex({member}{item}, {field.ItemSize}u);"),
            _ => field.IsSigned ? $"printf(\" %lld\", (long long){member}{item});" : $"printf(\" %llu\", (unsigned long long){member}{item});",
        });
    }

    private static IEnumerable<string> Items(Field field) =>
        field.Count == 1 ? [""] : Enumerable.Range(0, field.Count).Select(i => string.Create(CultureInfo.InvariantCulture, $"[{i}]"));
}
