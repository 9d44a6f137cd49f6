using System.Runtime.CompilerServices;
using BosFlow.Numerics.Vectors;

namespace BosFlow.Numerics.Spectral;

/// <summary>Highest and second highest peaks of correlation planes side by side: [y][x][lane].</summary>
internal static class LanePeaks
{
    /// <summary>Finds the peaks; where values are equal the first one in order of rows counts.</summary>
    /// <param name="plane">Circular planes.</param>
    /// <param name="size">Side of a plane: a power of two.</param>
    /// <param name="stride">Floats from one row to the next.</param>
    /// <param name="radius">Largest displacement looked at, px.</param>
    /// <param name="places">Displacement of the highest value, one a lane.</param>
    /// <param name="seconds">Highest value farther than <see cref="PeakFinder.PeakRadius"/> from it, at least 0, one a lane.</param>
    public static void Find<T>(float[] plane, int size, int stride, int radius, Span<(int X, int Y)> places, Span<float> seconds)
        where T : struct, ILanes<T>
    {
        T best = T.Of(float.NegativeInfinity), bestX = T.Of(0), bestY = T.Of(0);
        for (int dy = -radius; dy <= radius; dy++)
        {
            T y = T.Of(dy);
            for (int dx = -radius; dx <= radius; dx++)
            {
                T value = At<T>(plane, size, stride, dx, dy);
                bestX = T.SelectGreater(value, best, T.Of(dx), bestX);
                bestY = T.SelectGreater(value, best, y, bestY);
                best = T.SelectGreater(value, best, value, best);
            }
        }

        T second = T.Of(0), near = T.Of(PeakFinder.PeakRadius + 0.5f);
        for (int dy = -radius; dy <= radius; dy++)
        {
            T fromY = T.Absolute(T.Of(dy) - bestY);
            for (int dx = -radius; dx <= radius; dx++)
            {
                T value = At<T>(plane, size, stride, dx, dy);
                T higher = T.SelectGreater(value, second, value, second);
                T farX = T.SelectGreater(T.Absolute(T.Of(dx) - bestX), near, higher, second);
                second = T.SelectGreater(fromY, near, higher, farX);
            }
        }

        for (int lane = 0; lane < T.Count; lane++)
        {
            places[lane] = ((int)bestX.At(lane), (int)bestY.At(lane));
            seconds[lane] = second.At(lane);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T At<T>(float[] plane, int size, int stride, int dx, int dy)
        where T : struct, ILanes<T> =>
        T.Load(ref plane[((dy & (size - 1)) * stride) + ((dx & (size - 1)) * T.Count)], 0);
}
