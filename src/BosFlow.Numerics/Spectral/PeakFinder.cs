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
