namespace BosFlow.Displacement;

/// <summary>Systematic error that interpolation between pixels leaves in a displacement, and that no residual shows.</summary>
public static class InterpolationBias
{
    private const double Cubic = 0.005;
    private const double Quintic = 0.0025;

    /// <summary>Largest bias over all fractions of a pixel for dots of 3 px diameter (docs/validation); larger dots have less.</summary>
    /// <param name="order">Interpolation used.</param>
    /// <returns>Bias, px; counted as one standard deviation in every vector's sigma.</returns>
    public static double Pixels(InterpolationOrder order) => order == InterpolationOrder.Cubic ? Cubic : Quintic;
}
