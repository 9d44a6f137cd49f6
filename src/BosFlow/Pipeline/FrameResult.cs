using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;

namespace BosFlow.Pipeline;

/// <summary>What one frame gave. Holds nothing that depends on the clock or the machine, so that its file is the same on every run.</summary>
public sealed record FrameResult
{
    /// <summary>Number of the frame in the footage.</summary>
    public required int Index { get; init; }

    /// <summary>Time since the first frame of the footage, s; NaN where unknown.</summary>
    public required double TimeSeconds { get; init; }

    /// <summary>File (and position) the frame came from.</summary>
    public required string Source { get; init; }

    /// <summary>Displacement with the motion of the background taken out. All NaN and flagged where the frame failed or was left out.</summary>
    public required VectorField Field { get; init; }

    /// <summary>Motion that was taken out; of a frame that was read row by row the motion of the whole, which leaves the rows' own.</summary>
    public required PlanarMotion Motion { get; init; }

    /// <summary>Motion that was taken out of a frame that was read row by row, the motion of the whole included; null for a global shutter.</summary>
    public RowMotion? Rows { get; init; }

    /// <summary>RMS of the remaining u on the undisturbed region, px: the noise floor in x. NaN where there is no such region.</summary>
    public required double NoiseFloorU { get; init; }

    /// <summary>RMS of the remaining v on the undisturbed region, px.</summary>
    public required double NoiseFloorV { get; init; }

    /// <summary>What sigma_u of all vectors was multiplied by, since what remains on the undisturbed region scatters more than they said; 1 where it does not, or no flow region is drawn.</summary>
    public double SigmaFactorU { get; init; } = 1;

    /// <summary>What sigma_v of all vectors was multiplied by.</summary>
    public double SigmaFactorV { get; init; } = 1;

    /// <summary>Share of the vectors outside the masks that were measured (flag 0), 0 to 1.</summary>
    public required double ValidFraction { get; init; }

    /// <summary>Mean grey level of the frame, digital numbers.</summary>
    public required double MeanLevel { get; init; }

    /// <summary>Share of the frame's pixels at the white level, 0 to 1.</summary>
    public required double SaturatedFraction { get; init; }

    /// <summary>Its light against the reference's; unknown where the frame was not measured.</summary>
    public LightComparison Light { get; init; } = LightComparison.Unknown;

    /// <summary>Why the frame could not be measured; null where it was.</summary>
    public string? Failure { get; init; }

    /// <summary>Why the frame was left out although it could be read: repeated, blurred, or shaken too far, one sentence; null where it was not.</summary>
    public string? Rejection { get; init; }

    /// <summary>Whether the frame was measured: neither failed nor left out.</summary>
    public bool IsMeasured => Failure is null && Rejection is null;

    /// <summary>What the user should know of this frame, one sentence each.</summary>
    public IReadOnlyList<string> Warnings { get; init; } = [];
}
