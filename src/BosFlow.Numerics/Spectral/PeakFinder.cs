namespace BosFlow.Numerics.Spectral;

/// <summary>Finds the highest peak of a circular correlation plane and fits it to a fraction of a pixel.</summary>
internal static class PeakFinder
{
    // Neighbours this near belong to the peak itself and do not count as a second one.
    private const int PeakRadius = 2;
    private const double LargestRatio = 1000;

    // plane: [y][x][lane], zero shift at (0, 0), negative shifts wrapped round to the end.
    public static CorrelationPeak Find(ReadOnlySpan<float> plane, int size, int lanes, int lane, int radius, double energyProduct)
    {
        if (!(energyProduct > 0))
            return new CorrelationPeak(double.NaN, double.NaN, 0, 1);
        int mask = size - 1;
        int bestX = 0, bestY = 0;
        float best = float.NegativeInfinity;
        for (int dy = -radius; dy <= radius; dy++)
        {
            int row = (dy & mask) * size;
            for (int dx = -radius; dx <= radius; dx++)
            {
                float value = plane[((row + (dx & mask)) * lanes) + lane];
                if (value > best)
                {
                    best = value;
                    bestX = dx;
                    bestY = dy;
                }
            }
        }

        float second = 0;
        for (int dy = -radius; dy <= radius; dy++)
        {
            int row = (dy & mask) * size;
            bool nearY = Math.Abs(dy - bestY) <= PeakRadius;
            for (int dx = -radius; dx <= radius; dx++)
            {
                if (nearY && Math.Abs(dx - bestX) <= PeakRadius)
                    continue;
                second = Math.Max(second, plane[((row + (dx & mask)) * lanes) + lane]);
            }
        }

        double scale = 1 / Math.Sqrt(energyProduct);
        double left = At(bestX - 1, bestY, plane) * scale, right = At(bestX + 1, bestY, plane) * scale;
        double up = At(bestX, bestY - 1, plane) * scale, down = At(bestX, bestY + 1, plane) * scale;
        double top = best * scale;
        double ratio = best > 0 ? Math.Min(best / Math.Max(second, best / (float)LargestRatio), LargestRatio) : 1;
        return new CorrelationPeak(
            bestX + ThreePointFit.Gaussian(left, top, right), bestY + ThreePointFit.Gaussian(up, top, down), top, ratio);

        float At(int dx, int dy, ReadOnlySpan<float> values) => values[((((dy & mask) * size) + (dx & mask)) * lanes) + lane];
    }
}
