namespace BosFlow.Registration;

/// <summary>Robust fit of one motion of the whole frame; see <see cref="MotionFit"/>.</summary>
/// <param name="model">Motion model.</param>
public sealed class PlanarMotionFitter(MotionModel model) : IMotionFitter
{
    /// <inheritdoc/>
    public int Bands => 1;

    /// <inheritdoc/>
    public IReadOnlyList<string> Remarks => [];

    /// <inheritdoc/>
    /// <remarks>All vectors count alike: their own sigmas are estimates that scatter, and weighting by them favours lucky ones.</remarks>
    public MotionFitResult Fit(IPictureMotion start, ReadOnlySpan<double> x, ReadOnlySpan<double> y, ReadOnlySpan<double> u, ReadOnlySpan<double> v) =>
        MotionFit.Fit(model, x, y, u, v, []);
}
