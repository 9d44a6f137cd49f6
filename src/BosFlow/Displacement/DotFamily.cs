using System.Runtime.CompilerServices;
using BosFlow.Numerics.Spectral;

namespace BosFlow.Displacement;

/// <summary>Discs of one diameter, thrown at random or keeping apart, behind blurs of many widths (see <see cref="DotPower"/>).</summary>
internal sealed class DotFamily
{
    // Frequencies across the line, rad/px: midpoints of steps up to where pixel and blur leave nothing.
    private const double Step = 0.32;
    private const int Steps = 24;
    private const int Aliases = 3;

    private const double Ratio = 1.06;
    private const int FinerSteps = 8;

    private static readonly double[] AllBlurs = [.. Enumerable.Range(0, 47).Select(i => 0.2 * Math.Pow(Ratio, i))];
    private static readonly double[][] AllFading = Fade(AllBlurs);
    private static readonly double[] Coverages = [0, 0.15, 0.25, 0.35, 0.45];

    private readonly DotStructure? structure;
    private readonly double[] blurs;

    // exp(-s^2 v^2), blur by blur.
    private readonly double[][] fading;

    private DotFamily(double discPixels, DotStructure? structure, double[] blurs, double[][] fading)
    {
        DiscPixels = discPixels;
        (this.structure, this.blurs, this.fading) = (structure, blurs, fading);
        Dots = [.. Enumerable.Range(0, blurs.Length).Select(blur => new DotPower(this, blur, blurs[blur]))];
    }

    /// <summary>The families among which a fit chooses: discs, and the part of the area that they cover, 0 where they are thrown at random. Gaussian dots come first.</summary>
    public static IReadOnlyList<DotFamily> All { get; } = [.. from disc in Discs() from coverage in Coverages where disc > 0 || coverage == 0 select Of(disc, coverage)];

    /// <summary>D, px; 0 for Gaussian dots.</summary>
    public double DiscPixels { get; }

    /// <summary>The discs behind all blurs, the narrowest first.</summary>
    public IReadOnlyList<DotPower> Dots { get; }

    /// <summary>The same discs behind blurs that lie closely about one of theirs.</summary>
    /// <param name="blurPixels">s, px.</param>
    public DotFamily About(double blurPixels)
    {
        double[] closely = [.. Enumerable.Range(-FinerSteps, (2 * FinerSteps) + 1).Select(i => blurPixels * Math.Pow(Ratio, (double)i / FinerSteps))];
        return new DotFamily(DiscPixels, structure, closely, Fade(closely));
    }

    /// <summary>Power of a frequency along the line, of waves of all frequencies across it; without a common factor.</summary>
    /// <param name="frequency">w, rad/px.</param>
    /// <param name="blur">Number of the blur.</param>
    public double Power(double frequency, int blur)
    {
        Span<double> waves = stackalloc double[Steps];
        Load(frequency, waves);
        return Faded(frequency, blur, waves);
    }

    /// <summary>The power of all dots at some frequencies, each with the shorter waves that pixels show as these: [dot][frequency].</summary>
    /// <param name="frequencies">rad/px, up to pi.</param>
    public double[][] Folded(double[] frequencies)
    {
        double[][] folded = [.. blurs.Select(_ => new double[frequencies.Length])];
        Span<double> waves = stackalloc double[Steps];
        for (int k = 0; k < frequencies.Length; k++)
        {
            for (int alias = 0; alias < Aliases; alias++)
            {
                double frequency = Math.Abs(frequencies[k] + (2 * Math.PI * (alias - 1)));
                Load(frequency, waves);
                for (int blur = 0; blur < blurs.Length; blur++)
                    folded[blur][k] += Faded(frequency, blur, waves) * Dots[blur].Unit;
            }
        }

        return folded;
    }

    // Power of sharp dots behind pixels, of every frequency across the line.
    private void Load(double frequency, Span<double> waves)
    {
        double along = PixelSpectrum.Sinc(frequency / (2 * Math.PI));
        for (int i = 0; i < Steps; i++)
        {
            double periods = Math.Sqrt((frequency * frequency) + Square(Across(i))) / (2 * Math.PI);
            waves[i] = Square(DiscTransform.Value(DiscPixels * periods) * PixelSpectrum.Sinc(Across(i) / (2 * Math.PI)) * along) * (structure?.At(periods) ?? 1);
        }
    }

    // Called often before the compiler has had time for it.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private double Faded(double frequency, int blur, ReadOnlySpan<double> waves)
    {
        double[] across = fading[blur];
        double sum = 0;
        for (int i = 0; i < Steps; i++)
            sum += waves[i] * across[i];
        return sum * Step * Math.Exp(-Square(blurs[blur] * frequency));
    }

    private static DotFamily Of(double disc, double coverage) => new(disc, coverage > 0 ? new DotStructure(disc, coverage) : null, AllBlurs, AllFading);

    private static double[][] Fade(double[] blurs) => [.. blurs.Select(blur => Enumerable.Range(0, Steps).Select(i => Math.Exp(-Square(blur * Across(i)))).ToArray())];

    private static double Across(int i) => (i + 0.5) * Step;

    private static double Square(double x) => x * x;

    private static IEnumerable<double> Discs()
    {
        yield return 0;
        for (double disc = 1.5; disc < 4.1; disc += 0.25)
            yield return disc;
        for (double disc = 4.5; disc < 6.1; disc += 0.5)
            yield return disc;
    }
}
