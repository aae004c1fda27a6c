using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Text;

namespace RadioLint.Tests.Support;

/// <summary>A hub and one or more senders, with room for what a test wants to say.</summary>
public static class SmallNetwork
{
    public static string With(
        string air = "", string hub = "", string far = "", string link = "", string links = "", string payload = "count: uint8", string hubPins = "") => $$"""
        radiolint: 1
        network: cellar
        region: GB
        air: { channel: 74{{Rest(air)}} }
        nodes:
          hub: { board: esp32, pins: { ce: GPIO27, csn: GPIO5{{Rest(hubPins)}} }{{Rest(hub)}} }
          far: { board: atmega328p, pins: { ce: D9, csn: D10 }{{Rest(far)}} }
        links:
          - { from: far, to: hub, payload: reading, every: 1 min{{Rest(link)}} }
        {{links}}
        payloads:
          reading: { {{payload}} }
          order: { what: uint8 }

        """;

    public static Network Read(string text)
    {
        var result = Linter.Check(new SourceText("small.radio.yaml", text));
        return result.Network ?? throw new InvalidOperationException(string.Join("\n", result.Findings.Select(finding => $"{finding.Place} {finding.Message}")));
    }

    public static NodePlan PlanOf(string text, string node) => Read(text).Plan.Nodes.Single(plan => plan.Node.Name == node);

    public static RegisterImage ImageOf(string text, string node) =>
        PlanOf(text, node).Image ?? throw new InvalidOperationException($"{node} has no image: something it needs is open or wrong");

    private static string Rest(string more) => more.Length == 0 ? "" : ", " + more;
}
