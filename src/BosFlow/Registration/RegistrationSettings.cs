namespace BosFlow.Registration;

/// <summary>How the motion of camera and board is taken out.</summary>
public sealed record RegistrationSettings
{
    /// <summary>Motion model.</summary>
    public MotionModel Motion { get; init; } = MotionModel.Similarity;

    /// <summary>Largest shift searched for, px, at least 1.</summary>
    public int LargestShiftPixels { get; init; } = 64;

    /// <summary>
    /// Intervals over the height of the picture between which the motion of the rows may bend, 0 to <see cref="MostRowIntervals"/>; 0 = all rows are read at once (global shutter).
    /// See <see cref="RowIntervalsFor"/>.
    /// </summary>
    public int RowIntervals { get; init; }

    /// <summary>Most intervals.</summary>
    public const int MostRowIntervals = 120;

    /// <summary>Intervals that follow a vibration: six for each period of its highest frequency (common practice, no source; a cubic spline then follows a sinusoid to 0.2 % of its amplitude).</summary>
    /// <param name="readoutSeconds">Time between the first and the last row of one frame, s; 0 gives none.</param>
    /// <param name="highestHertz">Highest frequency of the vibration, Hz.</param>
    public static int RowIntervalsFor(double readoutSeconds, double highestHertz) =>
        readoutSeconds == 0 ? 0 : Math.Clamp((int)Math.Ceiling(6 * readoutSeconds * highestHertz), 4, MostRowIntervals);
}
