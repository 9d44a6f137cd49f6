namespace BosFlow.Synthesis;

/// <summary>What a flow does to the dot that the undisturbed reference shows at one place.</summary>
/// <param name="U">Displacement to the right, px.</param>
/// <param name="V">Displacement down, px.</param>
/// <param name="IndexGradientPathX">Integral of dn/dx along the very ray that meets the dot, 1; NaN where the field is prescribed in px and has no optics.</param>
/// <param name="IndexGradientPathY">Integral of dn/dy (y down) along that ray, 1; NaN likewise.</param>
public readonly record struct FlowSample(double U, double V, double IndexGradientPathX, double IndexGradientPathY)
{
    /// <summary>A displacement that is prescribed in px.</summary>
    /// <param name="u">Displacement to the right, px.</param>
    /// <param name="v">Displacement down, px.</param>
    public static FlowSample Prescribed(double u, double v) => new(u, v, double.NaN, double.NaN);
}
