namespace BosFlow.Displacement;

/// <summary>Power along a line of a picture of blurred discs: that of all waves of one frequency along the line, whatever theirs across it; 1 for the longest.</summary>
/// <remarks>
/// P(w) = integral over v of |disc(k)|^2 S(k) exp(-s^2 k^2) sinc(w / 2 pi)^2 sinc(v / 2 pi)^2, k^2 = w^2 + v^2, disc(k) = 2 J1(D k / 2) / (D k / 2): a disc of diameter D blurred by a Gaussian of standard deviation s and averaged over square pixels, S how such discs keep apart
/// (<see cref="DotStructure"/>). A disc of no width is a Gaussian dot.
/// </remarks>
internal sealed class DotPower
{
    private readonly DotFamily family;
    private readonly int blur;

    /// <summary>Discs of a family behind a blur.</summary>
    /// <param name="family">The discs.</param>
    /// <param name="blur">Number of the blur.</param>
    /// <param name="blurPixels">s, px.</param>
    public DotPower(DotFamily family, int blur, double blurPixels)
    {
        (this.family, this.blur, BlurPixels) = (family, blur, blurPixels);
        Unit = 1 / family.Power(0, blur);
    }

    /// <summary>s, px.</summary>
    public double BlurPixels { get; }

    /// <summary>The same discs behind blurs that lie closely about this one.</summary>
    public DotFamily About() => family.About(BlurPixels);

    /// <summary>Over the integral across the line at the longest waves along it.</summary>
    public double Unit { get; }

    /// <summary>e^-2 diameter of the Gaussian with the same second moment, px: that of a disc is half its diameter.</summary>
    public double DiameterPixels => 4 * Math.Sqrt((BlurPixels * BlurPixels) + (family.DiscPixels * family.DiscPixels / 16));

    /// <summary>Power of the waves that are longest along both axes over that of those which are longest along the line alone: P(0, 0) over (1 / pi) times the integral over v above 0.</summary>
    public double PlanePower => Math.PI * Unit;

    /// <summary>Power of waves of a frequency along the line over that of the longest.</summary>
    /// <param name="frequency">rad/px.</param>
    public double At(double frequency) => Unit * family.Power(frequency, blur);
}
