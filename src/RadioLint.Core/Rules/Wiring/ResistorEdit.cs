using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Wiring;

/// <summary>Adds a resistor to a pin, whether its name alone is written or a map.</summary>
internal static class ResistorEdit
{
    public static Edit PullUp(PinUse use, Stated<string> pin) => Of(use, pin, "pull-up");

    public static Edit PullDown(PinUse use, Stated<string> pin) => Of(use, pin, "pull-down");

    private static Edit Of(PinUse use, Stated<string> pin, string key) => use.Place == pin.Place
        ? new(pin.Place, KeyEdit.Map(pin.Place, ("pin", pin.Place.Text), (key, "10 kohm")))
        : KeyEdit.After(use.Place, pin.Place, key, "10 kohm");
}
