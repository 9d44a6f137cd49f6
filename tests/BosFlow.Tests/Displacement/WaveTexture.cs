using BosFlow.Footage;

namespace BosFlow.Tests.Displacement;

/// <summary>
/// A picture as a sum of plane waves: its value at any displaced position is known exactly, so a moved copy needs no
/// resampling. Independent of the project's speckle renderer. Wavelengths from 5 to 14 px, about those of dots of 3 px.
/// </summary>
internal sealed class WaveTexture
{
    private const int Waves = 60;
    private readonly double[] kx = new double[Waves];
    private readonly double[] ky = new double[Waves];
    private readonly double[] phase = new double[Waves];

    public WaveTexture(int seed)
    {
        var random = new Random(seed);
        for (int i = 0; i < Waves; i++)
        {
            double wavelength = 5 + (9 * random.NextDouble()), direction = 2 * Math.PI * random.NextDouble();
            kx[i] = 2 * Math.PI / wavelength * Math.Cos(direction);
            ky[i] = 2 * Math.PI / wavelength * Math.Sin(direction);
            phase[i] = 2 * Math.PI * random.NextDouble();
        }
    }

    /// <summary>Grey level 128 on average, standard deviation about 27.</summary>
    public double At(double x, double y)
    {
        double sum = 0;
        for (int i = 0; i < Waves; i++)
            sum += Math.Cos((kx[i] * x) + (ky[i] * y) + phase[i]);
        return 128 + (5 * sum);
    }

    /// <summary>The picture moved by a displacement that may vary linearly: dots of position p are seen at p + shift + strain * x.</summary>
    public GrayImage Picture(int width, int height, double u = 0, double v = 0, double strain = 0, float whiteLevel = 255)
    {
        float[] pixels = new float[width * height];
        Parallel.For(0, height, y =>
        {
            for (int x = 0; x < width; x++)
            {
                // x = p + u + strain * p, solved for p: the displacement is given at the reference position.
                double px = (x - u) / (1 + strain);
                pixels[(y * width) + x] = (float)At(px, y - v);
            }
        });
        return new GrayImage(width, height, pixels, whiteLevel);
    }
}
