namespace BosFlow.Speckle;

/// <summary>How a random dot pattern is drawn, as it appears in the picture.</summary>
public sealed record SpeckleSettings
{
    /// <summary>What a dot looks like.</summary>
    public DotShape Shape { get; init; } = DotShape.Gaussian;

    /// <summary>e^-2 diameter of the blur that a disc is seen with, px: 4 standard deviations of its Gaussian, 0.2 to 40; a Gaussian dot has it in its diameter.</summary>
    public double BlurPixels { get; init; } = 1.5;

    /// <summary>Gaussian: e^-2 diameter of a dot's image, px, 4 standard deviations. Disc: diameter of its sharp image. 0.5 to 40.</summary>
    public double DotDiameterPixels { get; init; } = 3;

    /// <summary>Mean number of dots for each pixel, greater than 0, at most 1.</summary>
    public double DotsPerPixel { get; init; } = 0.05;

    /// <summary>Least distance between two centres, px; 0 = purely random. DotsPerPixel times its square may be at most 0.6: denser packings jam.</summary>
    public double MinimumGapPixels { get; init; }

    /// <summary>Weakest contrast of a dot, share of full scale; negative for dark dots.</summary>
    public double ContrastFrom { get; init; } = 0.43;

    /// <summary>Strongest contrast of a dot, share of full scale.</summary>
    public double ContrastTo { get; init; } = 0.67;

    /// <summary>Width of the strip around the picture that carries dots too, px: what moves into view comes from there.</summary>
    public int MarginPixels { get; init; } = 40;

    /// <summary>Seed of every draw of the pattern.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Standard deviation of a dot's Gaussian, or of the blur of a disc, px.</summary>
    public double DotSigmaPixels => (Shape == DotShape.Gaussian ? DotDiameterPixels : BlurPixels) / 4;

    /// <summary>Width of a dot's image with its blur, px.</summary>
    public double ImagePixels => Shape == DotShape.Gaussian ? DotDiameterPixels : Math.Sqrt((DotDiameterPixels * DotDiameterPixels) + (BlurPixels * BlurPixels));

    /// <summary>Everything that is wrong with these settings, one sentence each; empty where nothing is.</summary>
    public IReadOnlyList<string> Problems()
    {
        var problems = new List<string>();
        if (!(DotDiameterPixels is >= 0.5 and <= 40))
            problems.Add(FormattableString.Invariant($"The dot diameter is {DotDiameterPixels} px; it must be 0.5 to 40 px."));
        if (!(BlurPixels is >= 0.2 and <= 40))
            problems.Add(FormattableString.Invariant($"The blur of the dots is {BlurPixels} px; it must be 0.2 to 40 px."));
        if (!(DotsPerPixel is > 0 and <= 1))
            problems.Add(FormattableString.Invariant($"The dot density is {DotsPerPixel} dots/px; it must be greater than 0 and at most 1."));
        if (!(MinimumGapPixels >= 0 && DotsPerPixel * MinimumGapPixels * MinimumGapPixels <= 0.6))
            problems.Add(FormattableString.Invariant($"A least gap of {MinimumGapPixels} px leaves no room for {DotsPerPixel} dots/px; the density times the gap squared may be at most 0.6."));
        if (!(Math.Abs(ContrastFrom) <= 1 && Math.Abs(ContrastTo) <= 1))
            problems.Add(FormattableString.Invariant($"The dot contrast {ContrastFrom} to {ContrastTo} must lie within -1 to 1 of full scale."));
        if (MarginPixels is < 0 or > 2000)
            problems.Add(FormattableString.Invariant($"The margin is {MarginPixels} px; it must be 0 to 2000 px."));
        return problems;
    }
}
