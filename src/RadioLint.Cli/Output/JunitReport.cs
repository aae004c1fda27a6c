using System.Globalization;
using System.Text;
using System.Xml;
using RadioLint.Cli.Checking;
using RadioLint.Findings;

namespace RadioLint.Cli.Output;

/// <summary>Findings in the XML form that build servers take for test results: a suite a file, a case a finding. Infos are cases that pass.</summary>
internal static class JunitReport
{
    private static readonly XmlWriterSettings Settings = new() { Indent = true, NewLineChars = "\n", Encoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false) };

    public static void Write(Stream output, CheckOutcome outcome)
    {
        using (var xml = XmlWriter.Create(output, Settings))
        {
            xml.WriteStartElement("testsuites");
            xml.WriteAttributeString("name", "radiolint");
            WriteCounts(xml, outcome.Findings.Length + outcome.Unread.Length, outcome.Findings.Count(Fails), outcome.Unread.Length);
            foreach (var file in outcome.Findings.GroupBy(finding => finding.Place.Source.Name, StringComparer.Ordinal))
            {
                xml.WriteStartElement("testsuite");
                xml.WriteAttributeString("name", Plain(file.Key));
                WriteCounts(xml, file.Count(), file.Count(Fails), 0);
                foreach (var finding in file)
                    Write(xml, finding);
                xml.WriteEndElement();
            }
            if (!outcome.Unread.IsEmpty)
            {
                xml.WriteStartElement("testsuite");
                xml.WriteAttributeString("name", "files that cannot be read");
                WriteCounts(xml, outcome.Unread.Length, 0, outcome.Unread.Length);
                foreach (var (name, reason) in outcome.Unread)
                {
                    xml.WriteStartElement("testcase");
                    xml.WriteAttributeString("classname", Plain(name));
                    xml.WriteAttributeString("name", "read");
                    xml.WriteStartElement("error");
                    xml.WriteAttributeString("message", Plain(reason));
                    xml.WriteEndElement();
                    xml.WriteEndElement();
                }
                xml.WriteEndElement();
            }
            xml.WriteEndElement();
        }
        output.WriteByte((byte)'\n');
    }

    private static void Write(XmlWriter xml, Finding finding)
    {
        var at = finding.Place.From;
        xml.WriteStartElement("testcase");
        xml.WriteAttributeString("classname", Plain(finding.Place.Source.Name));
        xml.WriteAttributeString("name", string.Create(CultureInfo.InvariantCulture, $"{finding.Rule.Id} {at.Line}:{at.Column}"));
        if (Fails(finding))
        {
            xml.WriteStartElement("failure");
            xml.WriteAttributeString("type", TextReport.Word(finding.Severity));
            xml.WriteAttributeString("message", Plain(finding.Message));
            xml.WriteString(Plain(finding.Help));
            xml.WriteEndElement();
        }
        else
        {
            xml.WriteElementString("system-out", Plain($"{finding.Message}; {finding.Help}"));
        }
        xml.WriteEndElement();
    }

    private static bool Fails(Finding finding) => finding.Severity >= Severity.Warning;

    private static void WriteCounts(XmlWriter xml, int tests, int failures, int errors)
    {
        xml.WriteAttributeString("tests", tests.ToString(CultureInfo.InvariantCulture));
        xml.WriteAttributeString("failures", failures.ToString(CultureInfo.InvariantCulture));
        xml.WriteAttributeString("errors", errors.ToString(CultureInfo.InvariantCulture));
    }

    // XML 1.0 has no place for most control characters.
    private static string Plain(string text) => string.Concat(text.Select(one => XmlConvert.IsXmlChar(one) || char.IsSurrogate(one) ? one : '\uFFFD'));
}
