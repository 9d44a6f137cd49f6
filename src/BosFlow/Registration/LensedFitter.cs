using BosFlow.Camera;

namespace BosFlow.Registration;

/// <summary>Fits a motion of the ideal picture to vectors of the picture as filmed.</summary>
/// <param name="inner">Fits in the ideal picture.</param>
/// <param name="lens">The lens.</param>
internal sealed class LensedFitter(IMotionFitter inner, LensModel lens) : IMotionFitter
{
    /// <inheritdoc/>
    public int Bands => inner.Bands;

    /// <inheritdoc/>
    public IReadOnlyList<string> Remarks => inner.Remarks;

    /// <inheritdoc/>
    public MotionFitResult Fit(IPictureMotion start, ReadOnlySpan<double> x, ReadOnlySpan<double> y, ReadOnlySpan<double> u, ReadOnlySpan<double> v)
    {
        double[] idealX = new double[x.Length];
        double[] idealY = new double[x.Length];
        double[] idealU = new double[x.Length];
        double[] idealV = new double[x.Length];
        for (int i = 0; i < x.Length; i++)
            (idealX[i], idealY[i], idealU[i], idealV[i]) = lens.ToIdeal(x[i], y[i], u[i], v[i]);
        MotionFitResult fit = inner.Fit(LensedMotion.ToIdeal(start), idealX, idealY, idealU, idealV);
        return fit.Failure is null
            ? fit with { Motion = new LensedMotion(fit.Motion, lens), Uncertainty = fit.Uncertainty is { } uncertainty ? new LensedUncertainty(uncertainty, lens) : null }
            : fit;
    }
}
