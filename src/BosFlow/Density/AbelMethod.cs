namespace BosFlow.Density;

/// <summary>How a radial profile is found from the slope of its projection.</summary>
public enum AbelMethod
{
    /// <summary>The slope as a cubic spline through the samples, integrated exactly: no smoothing, fourth order in the spacing.</summary>
    CubicSpline,

    /// <summary>The slope linear between the samples (two-point formula): no smoothing, second order.</summary>
    TwoPoint,

    /// <summary>The slope summed to a projection, then the three-point operator: little smoothing, second order.</summary>
    ThreePoint,

    /// <summary>A smooth profile fitted to the slopes, as smooth as their uncertainties leave open: less noise, flattened crests.</summary>
    Smoothed,
}
