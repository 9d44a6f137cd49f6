namespace BosFlow.Planning;

/// <summary>A free round turbulent jet at a distance from its nozzle.</summary>
/// <remarks>
/// Far from the nozzle the share of the jet's gas on the axis falls as 5 D / x and its half-width grows as 0.11 x (C. J. Chen and W. Rodi 1980, Vertical Turbulent Buoyant Jets,
/// constants from memory), D = d (rho_J / rho_0)^0.5 the diameter that carries the same momentum in the surrounding gas (M. W. Thring and M. P. Newby 1953, from memory), counted from the
/// nozzle: published virtual origins lie within a few diameters on either side of it. The core ends where that law reaches 1, at 5 D: 5 d for a jet of the surrounding gas's
/// density, 2.8 d for one of a third of it. Nearer, core and layer are joined smoothly: share (1 + (x / 5D)^4)^(-1/4), half-width ((d / 2)^4 + (0.11 x)^4)^(1/4), an unmixed core that shrinks evenly over 5 D,
/// a Gaussian around it never thinner than 0.05 d (judgement, no source). Measured decays scatter by 20 %.
/// </remarks>
internal sealed class JetDevelopment
{
    private const double Decay = 5;
    private const double HalfWidthGrowth = 0.11;
    private const double ThinnestLayer = 0.05;

    /// <summary>A jet at a place.</summary>
    /// <param name="nozzleDiameter">d, m.</param>
    /// <param name="densityRatio">rho_J / rho_0, 1.</param>
    /// <param name="distance">x, m.</param>
    public JetDevelopment(double nozzleDiameter, double densityRatio, double distance)
    {
        CoreLengthMetres = Decay * nozzleDiameter * Math.Sqrt(densityRatio);
        AxisShare = Math.Pow(1 + Math.Pow(distance / CoreLengthMetres, 4), -0.25);
        HalfWidthMetres = Math.Pow(Math.Pow(nozzleDiameter / 2, 4) + Math.Pow(HalfWidthGrowth * distance, 4), 0.25);
        CoreRadiusMetres = nozzleDiameter / 2 * Math.Max(0, 1 - (distance / CoreLengthMetres));
        LayerMetres = Math.Max(ThinnestLayer * nozzleDiameter, (HalfWidthMetres - CoreRadiusMetres) / Math.Sqrt(Math.Log(2)));
    }

    /// <summary>Length of the unmixed core, m.</summary>
    public double CoreLengthMetres { get; }

    /// <summary>Mass fraction of the jet's gas on the axis, 0 to 1.</summary>
    public double AxisShare { get; }

    /// <summary>Radius at which half the axis's share is left, m.</summary>
    public double HalfWidthMetres { get; }

    /// <summary>Radius of the core, m, 0 beyond its end.</summary>
    public double CoreRadiusMetres { get; }

    /// <summary>1/e width of the Gaussian around the core, m.</summary>
    public double LayerMetres { get; }

    /// <summary>Mass fraction of the jet's gas at a radius.</summary>
    /// <param name="radius">m, 0 or more.</param>
    public double ShareAt(double radius)
    {
        double beyond = Math.Max(0, radius - CoreRadiusMetres) / LayerMetres;
        return AxisShare * Math.Exp(-beyond * beyond);
    }
}
