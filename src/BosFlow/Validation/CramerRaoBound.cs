using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Validation;

/// <summary>Least standard deviation that any unbiased estimate of a shift can have, for the very pattern of a scene.</summary>
/// <remarks>
/// Fisher matrix of a window J = sum (1 / s^2) [fx fx, fx fy; fx fy, fy fy] over its pixels, covariance at least the inverse of J; s^2 the sum of the noise variances of both
/// pictures, rounding (1 / 12 DN^2 each) included. Source of the bound: D. Robinson and P. Milanfar 2004, IEEE Trans. Image Process. 13:1185 (form from memory).
/// The gradient is that of the exact pattern: central difference of two noise-free renderings displaced by 0.01 px. <see cref="OfPixels"/> takes what the pixels of the noise-free picture tell of it instead, which is less with small dots: waves near the limit of the pixels have hardly a slope in them.
/// </remarks>
public static class CramerRaoBound
{
    private const double HalfStep = 0.01;

    // Differences of the greatest order over eleven points, from the first neighbours to the fifth (B. Fornberg 1988, Math. Comput. 51:699).
    private static readonly double[] Differences = [5.0 / 6, -5.0 / 21, 5.0 / 84, -5.0 / 504, 1.0 / 1260];

    /// <summary>Root mean square over all windows of the bound for u.</summary>
    /// <param name="pattern">Dots.</param>
    /// <param name="width">Width of the picture, px.</param>
    /// <param name="height">Height of the picture, px.</param>
    /// <param name="dotSigma">Standard deviation of a dot, px.</param>
    /// <param name="sensor">Noise of each of the two pictures; Gaussian part and rounding count.</param>
    /// <param name="grid">Centres of the windows.</param>
    /// <param name="windowPixels">Side of a window, px.</param>
    /// <param name="cancellationToken">Stops the rendering.</param>
    /// <returns>px.</returns>
    public static double Mean(IReadOnlyList<Dot> pattern, int width, int height, double dotSigma, SensorSettings sensor, NodeGrid grid, int windowPixels, CancellationToken cancellationToken)
    {
        float[] gradientX = Gradient(pattern, width, height, dotSigma, sensor, PlanarMotion.Shift(-HalfStep, 0), PlanarMotion.Shift(HalfStep, 0), cancellationToken);
        float[] gradientY = Gradient(pattern, width, height, dotSigma, sensor, PlanarMotion.Shift(0, -HalfStep), PlanarMotion.Shift(0, HalfStep), cancellationToken);
        return OfGradients(gradientX, gradientY, width, sensor, grid, windowPixels);
    }

    /// <summary>The same with the derivative that eleven neighbouring pixels of the noise-free picture tell.</summary>
    /// <param name="pattern">Dots.</param>
    /// <param name="width">Width of the picture, px.</param>
    /// <param name="height">Height of the picture, px.</param>
    /// <param name="dotSigma">Standard deviation of a dot, px.</param>
    /// <param name="sensor">Noise of each of the two pictures; Gaussian part and rounding count.</param>
    /// <param name="grid">Centres of the windows, which lie five pixels or more within the picture.</param>
    /// <param name="windowPixels">Side of a window, px.</param>
    /// <param name="cancellationToken">Stops the rendering.</param>
    /// <returns>px.</returns>
    public static double OfPixels(IReadOnlyList<Dot> pattern, int width, int height, double dotSigma, SensorSettings sensor, NodeGrid grid, int windowPixels, CancellationToken cancellationToken)
    {
        float[] picture = Exact(pattern, width, height, dotSigma, sensor, PlanarMotion.Identity, cancellationToken);
        float[] Slope(int step)
        {
            float[] slope = new float[picture.Length];
            for (int i = Differences.Length * step; i < slope.Length - (Differences.Length * step); i++)
            {
                for (int k = 0; k < Differences.Length; k++)
                    slope[i] += (float)(Differences[k] * (picture[i + ((k + 1) * step)] - picture[i - ((k + 1) * step)]));
            }

            return slope;
        }

        return OfGradients(Slope(1), Slope(width), width, sensor, grid, windowPixels);
    }

    /// <summary>How much larger the least standard deviation is where the pattern is not known beforehand but only seen in both noisy pictures, over the bound of <see cref="Mean"/>.</summary>
    /// <remarks>
    /// Fisher information of a delay between two records of a random signal of the power S, each with noise of the power N: integral of w^2 S^2 / (2 S N + N^2); a known signal has w^2 S / 2 N. Source: C. H. Knapp and G. C. Carter 1976,
    /// IEEE Trans. Acoust. Speech Signal Process. 24:320 (form from memory). Here over the frequencies of the pixels, S that of Gaussian dots thrown at random and averaged over pixels; waves shorter than two pixels are left out, so that it holds for dots of 3 px and more.
    /// </remarks>
    /// <param name="speckle">Gaussian dots.</param>
    /// <param name="sensor">Noise of each of the two pictures.</param>
    public static double OfUnknownPattern(SpeckleSettings speckle, SensorSettings sensor)
    {
        ArgumentNullException.ThrowIfNull(speckle);
        ArgumentNullException.ThrowIfNull(sensor);
        const int Steps = 96;
        double noise = 0.01 * sensor.NoisePercent * sensor.FullScale, n = (noise * noise) + (sensor.Bits == 0 ? 0 : 1.0 / 12);
        (double from, double to) = (speckle.ContrastFrom * sensor.FullScale, speckle.ContrastTo * sensor.FullScale);
        double meanSquare = ((from * from) + (from * to) + (to * to)) / 3, known = 0, unknown = 0, area = 2 * Math.PI * speckle.DotSigmaPixels * speckle.DotSigmaPixels;
        for (int i = 0; i < Steps; i++)
        {
            for (int j = 0; j < Steps; j++)
            {
                double x = Math.PI * (i + 0.5) / Steps, y = Math.PI * (j + 0.5) / Steps, pixel = Math.Sin(x / 2) / (x / 2) * Math.Sin(y / 2) / (y / 2);
                double power = speckle.DotsPerPixel * meanSquare * area * area * pixel * pixel * Math.Exp(-speckle.DotSigmaPixels * speckle.DotSigmaPixels * ((x * x) + (y * y)));
                known += x * x * power / (2 * n);
                unknown += x * x * power * power / ((2 * power * n) + (n * n));
            }
        }

        return Math.Sqrt(known / unknown);
    }

    private static double OfGradients(float[] gradientX, float[] gradientY, int width, SensorSettings sensor, NodeGrid grid, int windowPixels)
    {
        ArgumentNullException.ThrowIfNull(grid);
        double noise = 0.01 * sensor.NoisePercent * sensor.FullScale;
        double variance = 2 * ((noise * noise) + (sensor.Bits == 0 ? 0 : 1.0 / 12));
        double sum = 0;
        for (int row = 0; row < grid.Rows; row++)
        {
            for (int column = 0; column < grid.Columns; column++)
                sum += variance * InverseElement(gradientX, gradientY, width, (int)(grid.X(column) - (windowPixels / 2.0) + 1), (int)(grid.Y(row) - (windowPixels / 2.0) + 1), windowPixels);
        }

        return Math.Sqrt(sum / grid.Count);
    }

    private static float[] Gradient(IReadOnlyList<Dot> pattern, int width, int height, double dotSigma, SensorSettings sensor, PlanarMotion before, PlanarMotion after, CancellationToken cancellationToken)
    {
        float[] gradient = Exact(pattern, width, height, dotSigma, sensor, after, cancellationToken), first = Exact(pattern, width, height, dotSigma, sensor, before, cancellationToken);
        for (int i = 0; i < gradient.Length; i++)
            gradient[i] = (float)((gradient[i] - first[i]) / (2 * HalfStep));
        return gradient;
    }

    // Without noise and rounding, on the scale of the sensor.
    private static float[] Exact(IReadOnlyList<Dot> pattern, int width, int height, double dotSigma, SensorSettings sensor, PlanarMotion motion, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(sensor);
        SensorSettings exact = sensor with { NoisePercent = 0, FullWellElectrons = null, Bits = 0 };
        GrayImage picture = SceneRenderer.Render([.. pattern], motion, width, height, dotSigma, exact, 0, 0, cancellationToken);
        float scale = (float)(sensor.FullScale / exact.FullScale);
        return [.. picture.Pixels.ToArray().Select(level => level * scale)];
    }

    /// <summary>The (u, u) element of the inverse of the sums of gradient products over a window.</summary>
    private static double InverseElement(float[] gradientX, float[] gradientY, int width, int left, int top, int side)
    {
        double xx = 0, xy = 0, yy = 0;
        for (int row = top; row < top + side; row++)
        {
            for (int column = left; column < left + side; column++)
            {
                double gx = gradientX[(row * width) + column];
                double gy = gradientY[(row * width) + column];
                xx += gx * gx;
                xy += gx * gy;
                yy += gy * gy;
            }
        }

        return yy / ((xx * yy) - (xy * xy));
    }
}
