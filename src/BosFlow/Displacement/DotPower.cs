using BosFlow.Numerics.Spectral;

namespace BosFlow.Displacement;

/// <summary>Power along a line of a picture of blurred discs: that of all waves of one frequency along the line, whatever theirs across it; 1 for the longest.</summary>
/// <remarks>
/// P(w) = integral over v of |disc(k)|^2 exp(-s^2 k^2) sinc(w / 2 pi)^2 sinc(v / 2 pi)^2, k^2 = w^2 + v^2, disc(k) = 2 J1(D k / 2) / (D k / 2): a disc of diameter D blurred by a Gaussian of standard deviation s and averaged over square pixels. A disc of no width is a Gaussian dot.
/// </remarks>
internal sealed class DotPower
{
    private const double Step = 0.32;
    private const int Steps = 24;
    private const double Narrowest = 0.2, Widest = 3, Ratio = 1.06;
    private static readonly double[] Coverages = [0, 0.15, 0.25, 0.35, 0.45];

    private readonly double unit;
    private readonly DotStructure? structure;

    private DotPower(double discPixels, double coverage, double blurPixels)
    {
        structure = coverage > 0 ? new DotStructure(discPixels, coverage) : null;
        DiscPixels = discPixels;
        BlurPixels = blurPixels;
        unit = 1;
        unit = 1 / At(0);
    }

    /// <summary>The shapes among which a fit chooses: for every disc and the part of the area that discs cover, 0 where they are thrown at random, all blurs. Gaussian dots come first.</summary>
    public static IReadOnlyList<IReadOnlyList<DotPower>> Families { get; } =
        [.. from disc in Discs() from coverage in Coverages where disc > 0 || coverage == 0 select (IReadOnlyList<DotPower>)[.. Blurs().Select(blur => new DotPower(disc, coverage, blur))]];

    /// <summary>D, px.</summary>
    public double DiscPixels { get; }

    /// <summary>s, px.</summary>
    public double BlurPixels { get; }

    /// <summary>e^-2 diameter of the Gaussian with the same second moment, px: that of a disc is half its diameter.</summary>
    public double DiameterPixels => 4 * Math.Sqrt((BlurPixels * BlurPixels) + (DiscPixels * DiscPixels / 16));

    /// <summary>Power of the waves that are longest along both axes over that of those which are longest along the line alone: P(0, 0) over (1 / pi) times the integral over v above 0.</summary>
    public double PlanePower => Math.PI * unit / Step;

    /// <summary>Power of waves of a frequency along the line over that of the longest.</summary>
    /// <param name="frequency">rad/px.</param>
    public double At(double frequency)
    {
        double sum = 0;
        for (int i = 0; i < Steps; i++)
        {
            double across = (i + 0.5) * Step, squared = (frequency * frequency) + (across * across);
            double wave = DiscTransform.Value(DiscPixels * Math.Sqrt(squared) / (2 * Math.PI)) * Sinc(across / 2);
            sum += wave * wave * Math.Exp(-BlurPixels * BlurPixels * squared) * (structure?.At(Math.Sqrt(squared) / (2 * Math.PI)) ?? 1);
        }

        double along = Sinc(frequency / 2);
        return unit * along * along * sum;
    }

    private static double Sinc(double x) => Math.Abs(x) < 1e-9 ? 1 : Math.Sin(x) / x;

    private static IEnumerable<double> Discs()
    {
        yield return 0;
        for (double disc = 1.5; disc < 4.1; disc += 0.25)
            yield return disc;
        for (double disc = 4.5; disc < 6.1; disc += 0.5)
            yield return disc;
    }

    private static IEnumerable<double> Blurs()
    {
        for (double blur = Narrowest; blur < Widest; blur *= Ratio)
            yield return blur;
    }
}
