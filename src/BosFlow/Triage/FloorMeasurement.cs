using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;

namespace BosFlow.Triage;

/// <summary>The noise of a vector, measured by the engine itself between two neighbouring frames on a part of the picture.</summary>
/// <remarks>
/// Nothing should move from one frame to the next but camera and board; of each row of vectors the straight line is taken off, which is what registration with row-wise motion can do, and what is left
/// is noise: its robust standard deviation, u and v together. Both frames have noise, as a frame and a reference of one frame have. A flow in that part raises it.
/// </remarks>
internal static class FloorMeasurement
{
    private const int LargestSide = 384;
    private const int FewestColumns = 5;

    /// <summary>Measures.</summary>
    /// <param name="first">The reference.</param>
    /// <param name="second">The next frame.</param>
    /// <param name="pair">The motion between them.</param>
    /// <param name="settings">Settings of the engine.</param>
    /// <param name="place">Which part: 0 the middle, 1 to 4 the quarters, and again.</param>
    /// <param name="cancellationToken">Stops the measurement.</param>
    /// <returns>Standard deviation of one component, px; NaN where it cannot be told.</returns>
    public static double Of(GrayImage first, GrayImage second, PairReading pair, DisplacementSettings settings, int place, CancellationToken cancellationToken)
    {
        int dx = (int)Math.Round(pair.ShiftX), dy = (int)Math.Round(pair.ShiftY);
        int width = Math.Min(LargestSide, first.Width - Math.Abs(dx)), height = Math.Min(LargestSide, first.Height - Math.Abs(dy));
        if (pair.Failure is not null || Math.Min(width, height) < (FewestColumns + 2) * Math.Max(settings.SpacingPixels, settings.WindowPixels / 2))
            return double.NaN;
        (double x, double y) = (place % 5) switch { 0 => (0.5, 0.5), 1 => (0.2, 0.2), 2 => (0.8, 0.2), 3 => (0.2, 0.8), _ => (0.8, 0.8) };
        int left = Math.Max(0, -dx) + (int)(x * (first.Width - Math.Abs(dx) - width)), top = Math.Max(0, -dy) + (int)(y * (first.Height - Math.Abs(dy) - height));
        var engine = new DisplacementEngine(Cut(first, left, top, width, height), PixelMask.All(width, height), settings);
        GrayImage moved = Cut(second, left + dx, top + dy, width, height);
        VectorField field = engine.Measure(moved, PlanarMotion.Shift(pair.ShiftX - dx, pair.ShiftY - dy), cancellationToken);
        var rest = new List<double>();
        for (int row = 1; row < field.Grid.Rows - 1; row++)
            AddRests(field, row, rest);
        return rest.Count < FewestColumns * FewestColumns ? double.NaN : Spread.Sigma(rest);
    }

    private static void AddRests(VectorField field, int row, List<double> rest)
    {
        int[] nodes = [.. Enumerable.Range((row * field.Grid.Columns) + 1, field.Grid.Columns - 2).Where(node => field.Flags[node] == VectorFlags.None)];
        if (nodes.Length < FewestColumns)
            return;
        foreach (float[] component in new[] { field.U, field.V })
        {
            double meanX = nodes.Average(), mean = nodes.Average(node => component[node]);
            double slope = nodes.Sum(node => (node - meanX) * component[node]) / nodes.Sum(node => (node - meanX) * (node - meanX));
            // Two numbers fitted to n values leave n - 2 of them free.
            double factor = Math.Sqrt(nodes.Length / (nodes.Length - 2.0));
            rest.AddRange(nodes.Select(node => factor * (component[node] - mean - (slope * (node - meanX)))));
        }
    }

    private static GrayImage Cut(GrayImage image, int left, int top, int width, int height)
    {
        float[] pixels = new float[width * height];
        for (int y = 0; y < height; y++)
            image.Row(top + y).Slice(left, width).CopyTo(pixels.AsSpan(y * width));
        return new GrayImage(width, height, pixels, image.WhiteLevel);
    }
}
