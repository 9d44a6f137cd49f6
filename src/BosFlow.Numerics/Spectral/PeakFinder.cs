using System.Numerics;

namespace BosFlow.Numerics.Spectral;

/// <summary>Finds the highest peak of a circular correlation plane and fits it to a fraction of a pixel.</summary>
internal static class PeakFinder
{
    // Neighbours this near belong to the peak itself and do not count as a second one.
    public const int PeakRadius = 2;
    private const double LargestRatio = 1000;

    public static CorrelationPeak Find(CorrelationPlane plane, int lane, int radius, double energyProduct)
    {
        if (!(energyProduct > 0))
            return new CorrelationPeak(double.NaN, double.NaN, 0, 1);
        if (plane.IsSingle)
            return FindSingle(plane, radius, energyProduct);
        int bestX = 0, bestY = 0;
        float best = float.NegativeInfinity;
        for (int dy = -radius; dy <= radius; dy++)
        {
            ReadOnlySpan<float> row = plane.Row(dy);
            for (int dx = -radius; dx <= radius; dx++)
            {
                float value = row[plane.Place(dx, lane)];
                if (value > best)
                {
                    best = value;
                    bestX = dx;
                    bestY = dy;
                }
            }
        }

        return Fit(plane, lane, (bestX, bestY), SecondHighest(plane, lane, radius, bestX, bestY), energyProduct);
    }

    /// <summary>The fraction of a pixel and the normalised height of a peak that has been found.</summary>
    public static CorrelationPeak Fit(CorrelationPlane plane, int lane, (int X, int Y) place, float second, double energyProduct)
    {
        if (!(energyProduct > 0))
            return new CorrelationPeak(double.NaN, double.NaN, 0, 1);
        (int bestX, int bestY) = place;
        float best = plane.At(bestX, bestY, lane);
        double scale = 1 / Math.Sqrt(energyProduct);
        double left = plane.At(bestX - 1, bestY, lane) * scale, right = plane.At(bestX + 1, bestY, lane) * scale;
        double up = plane.At(bestX, bestY - 1, lane) * scale, down = plane.At(bestX, bestY + 1, lane) * scale;
        double top = best * scale;
        double ratio = best > 0 ? Math.Min(best / Math.Max(second, best / (float)LargestRatio), LargestRatio) : 1;
        return new CorrelationPeak(
            bestX + ThreePointFit.Gaussian(left, top, right), bestY + ThreePointFit.Gaussian(up, top, down), top, ratio);
    }

    // Highest value of every row first; only the rows about the peak are looked at value by value.
    private static CorrelationPeak FindSingle(CorrelationPlane plane, int radius, double energyProduct)
    {
        Span<float> highest = stackalloc float[(2 * radius) + 1];
        int bestY = -radius;
        for (int dy = -radius; dy <= radius; dy++)
        {
            ReadOnlySpan<float> row = plane.Row(dy);
            highest[dy + radius] = Math.Max(Highest(row[^radius..]), Highest(row[..(radius + 1)]));
            if (highest[dy + radius] > highest[bestY + radius])
                bestY = dy;
        }

        int bestX = -radius;
        while (bestX < radius && plane.At(bestX, bestY, 0) != highest[bestY + radius])
            bestX++;
        float second = 0;
        for (int dy = -radius; dy <= radius; dy++)
        {
            if (Math.Abs(dy - bestY) > PeakRadius)
                second = Math.Max(second, highest[dy + radius]);
        }

        for (int dy = Math.Max(-radius, bestY - PeakRadius); dy <= Math.Min(radius, bestY + PeakRadius); dy++)
        {
            for (int dx = -radius; dx <= radius; dx++)
            {
                if (Math.Abs(dx - bestX) > PeakRadius)
                    second = Math.Max(second, plane.At(dx, dy, 0));
            }
        }

        return Fit(plane, 0, (bestX, bestY), second, energyProduct);
    }

    private static float Highest(ReadOnlySpan<float> values)
    {
        int i = 0;
        float highest = float.NegativeInfinity;
        if (values.Length >= Vector<float>.Count)
        {
            Vector<float> wide = new(float.NegativeInfinity);
            for (; i <= values.Length - Vector<float>.Count; i += Vector<float>.Count)
                wide = Vector.Max(wide, new Vector<float>(values[i..]));
            for (int lane = 0; lane < Vector<float>.Count; lane++)
                highest = Math.Max(highest, wide[lane]);
        }

        for (; i < values.Length; i++)
            highest = Math.Max(highest, values[i]);
        return highest;
    }

    private static float SecondHighest(CorrelationPlane plane, int lane, int radius, int bestX, int bestY)
    {
        float second = 0;
        for (int dy = -radius; dy <= radius; dy++)
        {
            ReadOnlySpan<float> row = plane.Row(dy);
            bool nearY = Math.Abs(dy - bestY) <= PeakRadius;
            for (int dx = -radius; dx <= radius; dx++)
            {
                if (!nearY || Math.Abs(dx - bestX) > PeakRadius)
                    second = Math.Max(second, row[plane.Place(dx, lane)]);
            }
        }

        return second;
    }
}
