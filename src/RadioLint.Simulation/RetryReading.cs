namespace RadioLint.Simulation;

/// <summary>The two readings of where the retry delay ends; the data sheet's text and its figures differ.</summary>
public enum RetryReading
{
    /// <summary>Settling follows the delay: period T_OA + ARD + 130 us (nRF24L01+ Product Specification 1.0, Figures 17, 19, 20 p44-46).</summary>
    Figures,

    /// <summary>The delay ends with the start of the next transmission: period T_OA + ARD (7.4.2 p34, Table 28 p58).</summary>
    Text,
}
