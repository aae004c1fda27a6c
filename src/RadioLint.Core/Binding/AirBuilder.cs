using System.Collections.Immutable;
using RadioLint.Manifest;
using RadioLint.Manifest.Keys;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Binding;

/// <summary>Air settings from the nearest layer that writes each key.</summary>
internal static class AirBuilder
{
    /// <summary>
    /// Merges layers key by key, the first that writes a key wins; defaults take the place of the last layer, the network's: one that no node
    /// states has one place, however many nodes have an `air` of their own.
    /// </summary>
    public static Air Build(IReadOnlyList<Settings?> layers, Place fallBack, Stated<Retry>? ownRetry = null)
    {
        var retry = ownRetry ?? Pick(AirKeys.Retry);
        var place = layers[layers.Count - 1]?.Place ?? fallBack;
        return new(
            layers.FirstOrDefault(layer => layer is not null)?.Place ?? fallBack,
            Pick(AirKeys.Channel), Pick(AirKeys.Rate), Pick(AirKeys.AddressWidth), Pick(AirKeys.Crc), Pick(AirKeys.Acknowledge),
            Pick(AirKeys.PayloadLength), Pick(AirKeys.NoAcknowledge), retry?.Value ?? NoRetry(place))
        {
            Avoid = Pick(AirKeys.Avoid)?.Value ?? ImmutableArray<Stated<ChannelRange>>.Empty,
        };

        Stated<T>? Pick<T>(Key<T> key)
        {
            foreach (var layer in layers)
            {
                if (layer is not null && layer.Has(key))
                    return layer.Written(key);
            }
            return key.DefaultAt(layers[layers.Count - 1]?.Place ?? fallBack);
        }
    }

    private static Retry NoRetry(Place place) => AirKeys.DefaultRetry(place);
}
