using BosFlow.Camera;

namespace BosFlow.Registration;

/// <summary>How well a motion of the ideal picture is known at a place of the picture as filmed, in pixels of the ideal picture.</summary>
/// <param name="ideal">The same at a place of the ideal picture.</param>
/// <param name="lens">The lens.</param>
internal sealed class LensedUncertainty(IMotionUncertainty ideal, LensModel lens) : IMotionUncertainty
{
    /// <inheritdoc/>
    public (double SigmaU, double SigmaV) At(double x, double y)
    {
        (double idealX, double idealY) = lens.ToIdeal(x, y);
        return ideal.At(idealX, idealY);
    }

    /// <inheritdoc/>
    public double Largest(int width, int height) => ideal.Largest(width, height);
}
