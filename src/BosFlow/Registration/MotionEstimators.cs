using BosFlow.Footage;

namespace BosFlow.Registration;

/// <summary>Chooses the estimator that suits the settings.</summary>
public static class MotionEstimators
{
    /// <summary>Makes the estimator of a reference.</summary>
    /// <param name="reference">Reference picture.</param>
    /// <param name="undisturbed">Pixels without flow; same size.</param>
    /// <param name="settings">Motion model, readout, largest shift.</param>
    public static IMotionEstimator Of(GrayImage reference, PixelMask undisturbed, RegistrationSettings settings) =>
        RowModel.Of(undisturbed, settings) is { } rows
            ? new RowMotionEstimator(reference, undisturbed, settings, rows)
            : new MotionEstimator(reference, undisturbed, settings);
}
