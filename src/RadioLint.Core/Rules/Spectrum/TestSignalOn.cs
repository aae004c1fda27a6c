using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Spectrum;

/// <summary>RL3106: the chip is told to send its test signal, which fills the channel for everybody.</summary>
public sealed class TestSignalOn() : Rule(new(
    "RL3106", Severity.Error, "Test signal left switched on",
    "CONT_WAVE and PLL_LOCK are for tests only (nRF24L01+ Product Specification 1.0, Table 28, RF_SETUP bits 7 and 4, and Appendix C)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Test is not { } test || test.Value == "none")
                continue;
            var bit = test.Value == "carrier" ? "CONT_WAVE, bit 7" : "PLL_LOCK, bit 4";
            yield return At(
                node, test.Place, $"node `{node.Label}` has the test signal `{test.Value}` on ({bit} of RF_SETUP)",
                $"use `test: none`, and keep a test build in a manifest of its own, into a dummy load; the rules of the place of use govern",
                Offer("Switch the test signal off", test.Place, "none"));
        }
    }
}
