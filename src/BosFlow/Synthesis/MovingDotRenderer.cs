namespace BosFlow.Synthesis;

/// <summary>
/// Renders Gaussian dots that move while the rows across them are read: each row gets, as in <see cref="DotRenderer"/>, the exact integral over its pixels of the dot where that row sees it.
/// A dot that moves along x is sheared so, one that moves along y is stretched or squeezed.
/// </summary>
internal static class MovingDotRenderer
{
    private const double ReachInSigmas = 5.5;

    // Rows across a dot see it at most this much further from them than they would if it stood still.
    private const double LargestStretch = 1 / (1 - FrameView.LargestSlope);

    /// <summary>Adds the sum of all dots to a picture.</summary>
    /// <param name="levels">Row-major levels, width * height.</param>
    /// <param name="dots">The dots.</param>
    /// <param name="width">Width, px.</param>
    /// <param name="sigma">Standard deviation of a dot at rest, px.</param>
    /// <param name="weight">Factor of every contrast, 1.</param>
    /// <param name="cancellationToken">Stops between two bands of rows.</param>
    public static void Add(float[] levels, MovingDot[] dots, int width, double sigma, double weight, CancellationToken cancellationToken)
    {
        int height = levels.Length / width;
        double reach = (ReachInSigmas * sigma) + 0.5;
        double rowReach = reach * LargestStretch;
        double drift = dots.Length == 0 ? 0 : dots.Max(dot => Math.Abs(dot.SlopeX) + (rowReach * Math.Abs(dot.BendX))) * rowReach;
        List<MovingDot>[] bands = DotBands.Sort<MovingDot>(dots, dot => dot.Centre, width, height, rowReach + drift);
        Parallel.For(0, bands.Length, new ParallelOptions { CancellationToken = cancellationToken }, band =>
        {
            int firstRow = band * DotBands.Rows;
            int endRow = Math.Min(height, firstRow + DotBands.Rows);
            foreach (MovingDot dot in bands[band])
            {
                int top = Math.Max(firstRow, (int)Math.Floor(dot.Centre.Y - rowReach));
                int bottom = Math.Min(endRow - 1, (int)Math.Ceiling(dot.Centre.Y + rowReach));
                for (int row = top; row <= bottom; row++)
                    AddRow(levels.AsSpan(row * width, width), row, dot, sigma, reach, weight);
            }
        });
    }

    private static void AddRow(Span<float> line, int row, in MovingDot dot, double sigma, double reach, double weight)
    {
        (double x, double y) = dot.At(row);
        if (Math.Abs(row - y) > reach)
            return;
        int left = Math.Max(0, (int)Math.Floor(x - reach));
        int right = Math.Min(line.Length - 1, (int)Math.Ceiling(x + reach));
        double perSigma = 1 / (sigma * Math.Sqrt(2));
        double across = ErrorFunction.Value((row + 0.5 - y) * perSigma) - ErrorFunction.Value((row - 0.5 - y) * perSigma);
        double factor = weight * dot.Centre.Contrast * Math.PI * sigma * sigma / 2 * across;
        double below = ErrorFunction.Value((left - 0.5 - x) * perSigma);
        for (int column = left; column <= right; column++)
        {
            double above = ErrorFunction.Value((column + 0.5 - x) * perSigma);
            line[column] += (float)(factor * (above - below));
            below = above;
        }
    }
}
