namespace BosFlow.Camera;

/// <summary>A picture that a calibration rests on.</summary>
/// <param name="View">What was found in it.</param>
/// <param name="Pose">How the target lay.</param>
/// <param name="Misses">For each point, where it was found less where the lens puts it, px.</param>
public sealed record CalibratedView(TargetView View, TargetPose Pose, IReadOnlyList<(double X, double Y)> Misses)
{
    /// <summary>RMS length of the misses, px.</summary>
    public double Rms => Math.Sqrt(Misses.Average(miss => (miss.X * miss.X) + (miss.Y * miss.Y)));

    /// <summary>The longest miss, px.</summary>
    public double Largest => Misses.Max(miss => double.Hypot(miss.X, miss.Y));

    /// <summary>A view with its misses.</summary>
    /// <param name="view">What was found.</param>
    /// <param name="pose">How the target lay.</param>
    /// <param name="lens">The lens.</param>
    public static CalibratedView Of(TargetView view, TargetPose pose, LensModel lens)
    {
        ArgumentNullException.ThrowIfNull(view);
        return new CalibratedView(view, pose, [.. view.Points.Select(point =>
        {
            (double column, double row) = pose.Seen(lens, point.X, point.Y);
            return (point.Column - column, point.Row - row);
        })]);
    }
}
