using System.Numerics;

namespace BosFlow.Numerics.Robust;

/// <summary>The median of eight values without a branch, of as many sets side by side as a vector has lanes.</summary>
/// <remarks>Source of the network: K. E. Batcher 1968, AFIPS Spring Joint Comput. Conf. 32:307 (from memory); the median is the mean of the two values in the middle.</remarks>
public static class MedianOfEight
{
    /// <summary>Number of values.</summary>
    public const int Count = 8;

    /// <summary>Median of eight values.</summary>
    /// <param name="values">Eight values without NaN.</param>
    /// <exception cref="ArgumentException">There are more or fewer.</exception>
    public static float Of(ReadOnlySpan<float> values)
    {
        if (values.Length != Count)
            throw new ArgumentException($"{values.Length} values given, {Count} needed.", nameof(values));
        return Of(
            new Vector<float>(values[0]), new Vector<float>(values[1]), new Vector<float>(values[2]), new Vector<float>(values[3]),
            new Vector<float>(values[4]), new Vector<float>(values[5]), new Vector<float>(values[6]), new Vector<float>(values[7]))[0];
    }

    /// <summary>Medians, lane by lane.</summary>
    /// <param name="a">First values, without NaN; the order of the eight does not matter.</param>
    /// <param name="b">Second values.</param>
    /// <param name="c">Third values.</param>
    /// <param name="d">Fourth values.</param>
    /// <param name="e">Fifth values.</param>
    /// <param name="f">Sixth values.</param>
    /// <param name="g">Seventh values.</param>
    /// <param name="h">Eighth values.</param>
    public static Vector<float> Of(
        Vector<float> a, Vector<float> b, Vector<float> c, Vector<float> d, Vector<float> e, Vector<float> f, Vector<float> g, Vector<float> h)
    {
        Sort(ref a, ref b);
        Sort(ref c, ref d);
        Sort(ref e, ref f);
        Sort(ref g, ref h);
        Sort(ref a, ref c);
        Sort(ref b, ref d);
        Sort(ref e, ref g);
        Sort(ref f, ref h);
        Sort(ref b, ref c);
        Sort(ref f, ref g);
        Sort(ref a, ref e);
        Sort(ref b, ref f);
        Sort(ref c, ref g);
        Sort(ref d, ref h);
        Sort(ref c, ref e);
        Sort(ref d, ref f);
        Sort(ref d, ref e);
        return (d + e) * 0.5f;
    }

    private static void Sort(ref Vector<float> low, ref Vector<float> high) =>
        (low, high) = (Vector.MinNative(low, high), Vector.MaxNative(low, high));
}
