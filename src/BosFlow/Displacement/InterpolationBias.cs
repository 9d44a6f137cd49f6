namespace BosFlow.Displacement;

/// <summary>Systematic error that interpolation between pixels leaves in a displacement, and that no residual shows.</summary>
public static class InterpolationBias
{
    private const double Cubic = 0.0091;
    private const double Quintic = 0.0028;

    /// <summary>Largest bias over all fractions of a pixel for dots of 3 px diameter (docs/validation; a test measures both); dots of 4 px have a tenth (quintic) and a third (cubic) of it, dots of 2.5 px half as much again.</summary>
    /// <param name="order">Interpolation used.</param>
    /// <returns>Bias, px; counted as one standard deviation in every vector's sigma.</returns>
    public static double Pixels(InterpolationOrder order) => order == InterpolationOrder.Cubic ? Cubic : Quintic;
}
