namespace BosFlow.Numerics.Interpolation;

/// <summary>Fits one <see cref="FineSpline"/> to several pictures of the same scene that lie at different fractions of a pixel.</summary>
/// <remarks>
/// <para>
/// Minimises the sum over pictures and pixels of (grey level - surface)^2 plus strength times the surface's roughness (<see cref="FineRoughness"/>), by conjugate gradients
/// (M. R. Hestenes and E. Stiefel 1952, doi 10.6028/jres.049.044). Among surfaces that fit alike the smoothest is found: pictures that all lie at the same fraction give what interpolation of their mean gives.
/// </para>
/// <para>The same pictures give the same bits, whatever the number of threads: every band of coefficients sums up its own.</para>
/// </remarks>
public sealed class FineSplineFit
{
    private const int BandRows = 64;

    // Ten find all that pictures show; what changes after them lies at frequencies where the pattern has next to nothing, and moves no vector (docs/validation: the same errors with 10, 20 and 40).
    private const int MostIterations = 12;
    private const double Tolerance = 1e-3;

    // Of the surface's own contrast: a thousandth of a noise of 1 %.
    private const double LeastMove = 1e-4;

    private readonly IReadOnlyList<FineObservation> pictures;
    private readonly FineSpline surface;
    private readonly float strength;
    private readonly ParallelOptions parallel;
    private readonly float[] residual;
    private readonly float[] direction;
    private readonly float[] product;
    private readonly float[] scratch;

    private FineSplineFit(FineSpline start, IReadOnlyList<FineObservation> pictures, double strength, ParallelOptions parallel)
    {
        surface = start;
        this.pictures = pictures;
        this.strength = (float)strength;
        this.parallel = parallel;
        int count = start.Coefficients.Length;
        (residual, direction, product, scratch) = (new float[count], new float[count], new float[count], new float[count]);
    }

    /// <summary>Improves a surface until it fits.</summary>
    /// <param name="start">The surface to begin with, which is changed: the interpolated mean of the pictures, say.</param>
    /// <param name="pictures">The pictures, each of the surface's size.</param>
    /// <param name="strength">Weight of the roughness; at the frequency f, in cycles a pixel, it outweighs n pictures by strength (pi f)^8 / (n / 4).</param>
    /// <param name="parallel">Threads and cancellation.</param>
    /// <returns>Iterations done, and the length of the gradient against that of the start.</returns>
    public static (int Iterations, double Relative) Improve(FineSpline start, IReadOnlyList<FineObservation> pictures, double strength, ParallelOptions parallel)
    {
        ArgumentNullException.ThrowIfNull(start);
        ArgumentNullException.ThrowIfNull(pictures);
        ArgumentNullException.ThrowIfNull(parallel);
        ArgumentOutOfRangeException.ThrowIfNegative(strength);
        return new FineSplineFit(start, pictures, strength, parallel).Run();
    }

    private (int Iterations, double Relative) Run()
    {
        float[] solution = surface.Coefficients.ToArray();
        Multiply(solution, residual, isAgainstPixels: true);
        Scale(residual, -1);
        residual.CopyTo(direction, 0);
        double first = Dot(residual, residual), energy = first, contrast = Contrast(solution);
        int iterations = 0;
        while (energy > Tolerance * Tolerance * first && iterations < MostIterations)
        {
            Multiply(direction, product, isAgainstPixels: false);
            double step = energy / Dot(direction, product);
            double moved = step * Math.Sqrt(Dot(direction, direction));
            AddScaled(solution, direction, step);
            AddScaled(residual, product, -step);
            double next = Dot(residual, residual), mix = next / energy;
            Parallel.For(0, surface.Rows, parallel, row =>
            {
                Span<float> to = Row(direction, row);
                ReadOnlySpan<float> from = Row(residual, row);
                for (int i = 0; i < to.Length; i++)
                    to[i] = from[i] + ((float)mix * to[i]);
            });
            energy = next;
            iterations++;
            if (moved < LeastMove * contrast)
                break;
        }

        solution.CopyTo(surface.Coefficients);
        return (iterations, first == 0 ? 0 : Math.Sqrt(energy / first));
    }

    // Half the derivative of what is minimised: against the pixels, or, its linear part, against zero.
    private void Multiply(float[] coefficients, float[] target, bool isAgainstPixels)
    {
        FineRoughness.Multiply(surface, coefficients, scratch, target, parallel);
        Scale(target, strength);
        var at = new FineSpline(surface, coefficients);
        int bands = (surface.Rows + BandRows - 1) / BandRows;
        Parallel.For(0, bands, parallel, band => AddPictures(at, target, band * BandRows, Math.Min((band + 1) * BandRows, surface.Rows), isAgainstPixels));
    }

    private void AddPictures(FineSpline at, float[] target, int firstRow, int endRow, bool isAgainstPixels)
    {
        float[] dx = new float[at.Width], dy = new float[at.Width], levels = new float[at.Width];
        foreach (FineObservation picture in pictures)
        {
            for (int y = 0; y < picture.Height; y++)
            {
                (float least, float most) = picture.Reach(y);
                // A pixel reaches one coefficient up and two down from its own place.
                if ((2 * most) + FineSpline.Border + 2 < firstRow || (2 * least) + FineSpline.Border - 2 >= endRow)
                    continue;
                picture.Displacements(y, dx, dy);
                FineSplineRows.SampleUnchecked(at, y, dx, dy, levels);
                ReadOnlySpan<float> recorded = picture.Row(y);
                for (int x = 0; x < levels.Length; x++)
                    levels[x] = float.IsNaN(recorded[x]) ? 0 : isAgainstPixels ? levels[x] - recorded[x] : levels[x];
                FineSplineRows.SpreadUnchecked(at, y, dx, dy, levels, target, firstRow, endRow);
            }
        }
    }

    private Span<float> Row(float[] values, int row) => values.AsSpan(row * surface.Stride, surface.Stride);

    private void Scale(float[] values, float factor) => Parallel.For(0, surface.Rows, parallel, row =>
    {
        foreach (ref float value in Row(values, row))
            value *= factor;
    });

    private void AddScaled(float[] target, float[] source, double factor) => Parallel.For(0, surface.Rows, parallel, row =>
    {
        Span<float> to = Row(target, row);
        ReadOnlySpan<float> from = Row(source, row);
        for (int i = 0; i < to.Length; i++)
            to[i] += (float)factor * from[i];
    });

    // Root of the sum of squares about the mean, of the coefficients within the picture and its border alike.
    private double Contrast(float[] values)
    {
        double sum = 0, squares = 0;
        long count = 2L * surface.HalfColumns * surface.Rows;
        foreach (float value in values)
        {
            sum += value;
            squares += (double)value * value;
        }

        return Math.Sqrt(Math.Max(0, squares - (sum * sum / count)));
    }

    private double Dot(float[] a, float[] b)
    {
        double[] rows = new double[surface.Rows];
        Parallel.For(0, surface.Rows, parallel, row =>
        {
            ReadOnlySpan<float> left = Row(a, row), right = Row(b, row);
            double sum = 0;
            for (int i = 0; i < left.Length; i++)
                sum += (double)left[i] * right[i];
            rows[row] = sum;
        });
        return rows.Sum();
    }
}
