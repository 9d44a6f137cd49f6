using System.Text.Json.Serialization;
using BosFlow.Camera;

namespace BosFlow.Registration;

/// <summary>How the motion of camera and board is taken out.</summary>
public sealed record RegistrationSettings
{
    /// <summary>Motion model.</summary>
    public MotionModel Motion { get; init; } = MotionModel.Similarity;

    /// <summary>Largest shift searched for, px, at least 1.</summary>
    public int LargestShiftPixels { get; init; } = 64;

    /// <summary>Time from the reading of the first row of a frame to that of the last, s; 0 = all rows at once (global shutter).</summary>
    public double ReadoutSeconds { get; init; }

    /// <summary>Whether <see cref="ReadoutSeconds"/> is to be found from the footage (<see cref="ReadoutEstimator"/>) before the run.</summary>
    public bool EstimatesReadout { get; init; }

    /// <summary>Standard uncertainty of a readout time that was found, s; null where it was given.</summary>
    public double? ReadoutSigmaSeconds { get; init; }

    /// <summary>Highest frequency of vibration that is followed within a frame, Hz; null = three times the frame rate.</summary>
    public double? HighestVibrationHertz { get; init; }

    /// <summary>Intervals over the height of the picture between which the motion of the rows may bend, 0 to <see cref="MostRowIntervals"/>; 0 = one motion for the whole frame. <see cref="RowTiming"/> chooses it.</summary>
    public int RowIntervals { get; init; }

    /// <summary>The lens through which the background is seen; null = an ideal one. The pipeline sets it: a case names its lens under [camera].</summary>
    [JsonIgnore]
    public LensModel? Lens { get; init; }

    /// <summary>Most intervals.</summary>
    public const int MostRowIntervals = 120;
}
