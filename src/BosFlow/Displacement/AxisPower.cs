using BosFlow.Footage;

namespace BosFlow.Displacement;

/// <summary>Mean power spectrum of the grey levels of a picture along its rows or its columns.</summary>
/// <remarks>Stretches of 32 pixels, mean removed, tapered by a Hann window, spread evenly over the picture; a periodogram each, averaged (P. D. Welch 1967, IEEE Trans. Audio Electroacoust. 15:70, from memory). White noise of variance n gives n at every frequency.</remarks>
internal sealed class AxisPower
{
    /// <summary>Pixels of a stretch.</summary>
    public const int Length = 32;

    // Enough for 3 % at every frequency of a large picture; stretches of one line overlap by half.
    private const int MostLines = 192;
    private const int MostAlong = 24;
    private const int FewestStretches = 32;

    private static readonly float[] Taper = [.. Enumerable.Range(0, Length).Select(i => (float)Math.Pow(Math.Sin(Math.PI * (i + 0.5) / Length), 2))];
    private static readonly float[] Cosines = Waves(Math.Cos);
    private static readonly float[] Sines = Waves(Math.Sin);
    private static readonly float TaperPower = Taper.Sum(t => t * t);

    private AxisPower(double[] power, int stretches)
    {
        Power = power;
        Stretches = stretches;
    }

    /// <summary>Squared digital numbers at the frequencies 2 pi k / 32 rad/px, k from 0 to 16.</summary>
    public double[] Power { get; }

    /// <summary>The least power of waves shorter than 8 px: white noise has not more variance than that, whatever the pattern.</summary>
    public double Least => Power.Skip(Length / 8).Min();

    /// <summary>Stretches that were averaged.</summary>
    public int Stretches { get; }

    /// <summary>Frequency of an entry, rad/px.</summary>
    public static double Frequency(int k) => 2 * Math.PI * k / Length;

    /// <summary>The spectrum of a picture; null where fewer than 32 stretches are whole.</summary>
    /// <param name="image">The picture.</param>
    /// <param name="measurable">Pixels to look at.</param>
    /// <param name="isDown">Along its columns instead of its rows.</param>
    public static AxisPower? Of(GrayImage image, PixelMask measurable, bool isDown)
    {
        int along = isDown ? image.Height : image.Width, across = isDown ? image.Width : image.Height;
        int lines = Math.Min(MostLines, across), places = Math.Min(MostAlong, (2 * along / Length) - 1), count = 0;
        double[] sums = new double[(Length / 2) + 1];
        Span<float> stretch = stackalloc float[Length];
        for (int line = 0; line < lines && places > 0; line++)
        {
            int other = (int)(((2L * line) + 1) * across / (2 * lines));
            for (int place = 0; place < places; place++)
            {
                int first = places == 1 ? (along - Length) / 2 : (int)((long)place * (along - Length) / (places - 1));
                if (!Read(image, measurable, first, other, isDown, stretch))
                    continue;
                Add(stretch, sums);
                count++;
            }
        }

        return count < FewestStretches ? null : new AxisPower([.. sums.Select(sum => sum / count / TaperPower)], count);
    }

    // False where a pixel is not usable.
    private static bool Read(GrayImage image, PixelMask measurable, int first, int other, bool isDown, Span<float> stretch)
    {
        float sum = 0;
        for (int i = 0; i < Length; i++)
        {
            (int x, int y) = isDown ? (other, first + i) : (first + i, other);
            float level = image[x, y];
            if (measurable.Values[(y * image.Width) + x] == 0 || float.IsNaN(level))
                return false;
            stretch[i] = level;
            sum += level;
        }

        for (int i = 0; i < Length; i++)
            stretch[i] = (stretch[i] - (sum / Length)) * Taper[i];
        return true;
    }

    private static void Add(ReadOnlySpan<float> stretch, double[] sums)
    {
        for (int k = 0; k < sums.Length; k++)
        {
            float real = 0, imaginary = 0;
            for (int i = 0; i < Length; i++)
            {
                real += stretch[i] * Cosines[(k * Length) + i];
                imaginary += stretch[i] * Sines[(k * Length) + i];
            }

            sums[k] += (real * real) + (imaginary * imaginary);
        }
    }

    private static float[] Waves(Func<double, double> wave) =>
        [.. Enumerable.Range(0, ((Length / 2) + 1) * Length).Select(i => (float)wave(Frequency(i / Length) * (i % Length)))];
}
