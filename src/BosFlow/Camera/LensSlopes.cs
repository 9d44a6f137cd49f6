namespace BosFlow.Camera;

/// <summary>How a place moves as the place that it comes from moves: the derivatives of a map of the plane, 1.</summary>
/// <param name="XX">Derivative of x along x.</param>
/// <param name="XY">Derivative of x along y.</param>
/// <param name="YX">Derivative of y along x.</param>
/// <param name="YY">Derivative of y along y.</param>
public readonly record struct LensSlopes(double XX, double XY, double YX, double YY)
{
    /// <summary>Growth of an area, 1.</summary>
    public double Determinant => (XX * YY) - (XY * YX);

    /// <summary>The derivatives of the way back.</summary>
    public LensSlopes Inverse()
    {
        double d = Determinant;
        return new LensSlopes(YY / d, -XY / d, -YX / d, XX / d);
    }
}
