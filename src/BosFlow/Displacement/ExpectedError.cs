namespace BosFlow.Displacement;

/// <summary>The error that is expected of a vector, px.</summary>
/// <param name="Bound">Least standard deviation that the noise of the pictures allows (Cramer-Rao bound), px.</param>
/// <param name="Noise">Standard deviation that the noise makes in the engine, px.</param>
/// <param name="Interpolation">Error of the interpolation between pixels, which no noise-free picture is without, px.</param>
public sealed record ExpectedError(double Bound, double Noise, double Interpolation)
{
    /// <summary>Both in quadrature, px.</summary>
    public double Sigma => Math.Sqrt((Noise * Noise) + (Interpolation * Interpolation));
}
