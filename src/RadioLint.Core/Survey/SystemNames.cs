namespace RadioLint.Survey;

/// <summary>Other systems as people call them.</summary>
public static class SystemNames
{
    /// <summary>`Wi-Fi channel 6`.</summary>
    public static string Of(SystemInBand system) => BandSystems.Named(system);

    /// <summary>The same where room is short: `BLE 37`.</summary>
    public static string Short(SystemInBand system) => (system.Kind, system.Partner) switch
    {
        (SystemKind.Wifi, { } partner) => FormattableString.Invariant($"Wi-Fi {system.Channel}+{partner}"),
        (SystemKind.Wifi, _) => FormattableString.Invariant($"Wi-Fi {system.Channel}"),
        (SystemKind.BluetoothLeAdvertising, _) => FormattableString.Invariant($"BLE {system.Channel}"),
        _ => FormattableString.Invariant($"802.15.4 {system.Channel}"),
    };

    /// <summary>The kind as programs read it.</summary>
    public static string Word(SystemKind kind) => kind switch
    {
        SystemKind.Wifi => "wifi",
        SystemKind.BluetoothLeAdvertising => "bluetooth-le-advertising",
        _ => "ieee-802.15.4",
    };
}
