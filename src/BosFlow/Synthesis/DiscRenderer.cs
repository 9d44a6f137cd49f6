using BosFlow.Speckle;

namespace BosFlow.Synthesis;

/// <summary>Renders uniform discs, such as printed dots, blurred by a Gaussian and integrated over the square pixels.</summary>
/// <remarks>
/// A disc is cut into chords y = R sin(t), of half-width w = R cos(t). A chord blurred by a Gaussian of standard deviation s and averaged over a pixel from a to b is
/// G(b + w) - G(b - w) - G(a + w) + G(a - w) along x, G(x) = (x erf(x / (s sqrt 2)) + s sqrt(2 / pi) exp(-x^2 / (2 s^2))) / 2, and a difference of error functions along y. The sum over
/// chords at even steps of t is that of a smooth periodic function and converges faster than any power (derived).
/// </remarks>
public static class DiscRenderer
{
    private const double ReachInSigmas = 5.5;
    private const int LeastChords = 6;
    private const double ChordsPerSigma = 3;

    /// <summary>Renders the sum of all discs.</summary>
    /// <param name="dots">Centres where they are to appear, px; a contrast of 1 adds 1 inside a large sharp disc.</param>
    /// <param name="width">Width, px.</param>
    /// <param name="height">Height, px.</param>
    /// <param name="diameter">Diameter of the sharp image, px, greater than 0.</param>
    /// <param name="sigma">Standard deviation of the blur, px, greater than 0.</param>
    /// <param name="background">Level without dots, in units of contrast.</param>
    /// <param name="cancellationToken">Stops between two bands of rows.</param>
    /// <returns>Row-major levels, width * height. The same bits whatever the number of threads: every pixel adds its dots in their order.</returns>
    public static float[] Render(ReadOnlySpan<Dot> dots, int width, int height, double diameter, double sigma, double background, CancellationToken cancellationToken)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(height, 1);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(diameter);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(sigma);
        float[] levels = new float[checked(width * height)];
        Array.Fill(levels, (float)background);
        double reach = (diameter / 2) + (ReachInSigmas * sigma) + 0.5;
        List<Dot>[] bands = DotBands.Sort(dots, width, height, reach);
        var disc = new Disc(diameter / 2, sigma, reach);
        Parallel.For(0, bands.Length, new ParallelOptions { CancellationToken = cancellationToken }, band =>
        {
            int firstRow = band * DotBands.Rows;
            int endRow = Math.Min(height, firstRow + DotBands.Rows);
            foreach (Dot dot in bands[band])
                disc.Add(levels, width, firstRow, endRow, dot);
        });
        return levels;
    }

    private readonly struct Disc(double radius, double sigma, double reach)
    {
        private readonly int chords = 2 * ((LeastChords + (int)Math.Ceiling(ChordsPerSigma * radius / sigma)) / 2);

        public void Add(float[] levels, int width, int firstRow, int endRow, in Dot dot)
        {
            int left = Math.Max(0, (int)Math.Floor(dot.X - reach));
            int right = Math.Min(width - 1, (int)Math.Ceiling(dot.X + reach));
            int top = Math.Max(firstRow, (int)Math.Floor(dot.Y - reach));
            int bottom = Math.Min(endRow - 1, (int)Math.Ceiling(dot.Y + reach));
            if (right < left || bottom < top)
                return;
            Span<double> row = stackalloc double[right - left + 1];
            double step = Math.PI / chords;
            // A chord above the middle and the one as far below it have the same profile along x.
            for (int k = 0; k < chords / 2; k++)
            {
                (double sine, double cosine) = Math.SinCos((k + 0.5) * step);
                double half = radius * sine;
                double offset = radius * cosine;
                Chord(row, left - dot.X, half);
                double weight = dot.Contrast * half * step / 2;
                double below = Error(top - 0.5 - dot.Y - offset) + Error(top - 0.5 - dot.Y + offset);
                for (int y = top; y <= bottom; y++)
                {
                    double above = Error(y + 0.5 - dot.Y - offset) + Error(y + 0.5 - dot.Y + offset);
                    double factor = weight * (above - below);
                    below = above;
                    if (factor == 0)
                        continue;
                    Span<float> target = levels.AsSpan((y * width) + left, row.Length);
                    for (int i = 0; i < row.Length; i++)
                        target[i] += (float)(factor * row[i]);
                }
            }
        }

        private void Chord(Span<double> row, double firstDistance, double half)
        {
            double before = Integral(firstDistance - 0.5 + half) - Integral(firstDistance - 0.5 - half);
            for (int i = 0; i < row.Length; i++)
            {
                double after = Integral(firstDistance + i + 0.5 + half) - Integral(firstDistance + i + 0.5 - half);
                row[i] = after - before;
                before = after;
            }
        }

        private double Error(double x) => ErrorFunction.Value(x / (sigma * Math.Sqrt(2)));

        private double Integral(double x) =>
            ((x * Error(x)) + (sigma * Math.Sqrt(2 / Math.PI) * Math.Exp(-x * x / (2 * sigma * sigma)))) / 2;
    }
}
