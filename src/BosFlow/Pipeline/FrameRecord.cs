using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;

namespace BosFlow.Pipeline;

/// <summary>One line of the table of frames: a frame's result without its vectors.</summary>
/// <param name="Index">Number of the frame in the footage.</param>
/// <param name="TimeSeconds">Time since the first frame, s; NaN where unknown.</param>
/// <param name="Source">File (and position) the frame came from.</param>
/// <param name="Motion">Motion that was taken out.</param>
/// <param name="NoiseFloorU">RMS of u on the undisturbed region, px.</param>
/// <param name="NoiseFloorV">RMS of v on the undisturbed region, px.</param>
/// <param name="ValidFraction">Share of the vectors outside the masks that were measured, 0 to 1.</param>
/// <param name="MeanLevel">Mean grey level, digital numbers.</param>
/// <param name="SaturatedFraction">Share of saturated pixels, 0 to 1.</param>
/// <param name="Failure">Why the frame could not be measured; null where it was.</param>
/// <param name="Warnings">What the user should know of this frame.</param>
public sealed record FrameRecord(
    int Index,
    double TimeSeconds,
    string Source,
    PlanarMotion Motion,
    double NoiseFloorU,
    double NoiseFloorV,
    double ValidFraction,
    double MeanLevel,
    double SaturatedFraction,
    string? Failure,
    IReadOnlyList<string> Warnings)
{
    /// <summary>Why the frame was left out although it could be read: repeated, blurred, or shaken too far, one sentence; null where it was not.</summary>
    public string? Rejection { get; init; }

    /// <summary>What sigma_u of the frame was multiplied by (<see cref="FrameResult.SigmaFactorU"/>), 1 or more.</summary>
    public double SigmaFactorU { get; init; } = 1;

    /// <summary>What sigma_v was multiplied by.</summary>
    public double SigmaFactorV { get; init; } = 1;

    /// <summary>Its light against the reference's; unknown where the frame was not measured.</summary>
    public LightComparison Light { get; init; } = LightComparison.Unknown;

    /// <summary>Share of the vectors outside the masks that glare hid, 0 to 1.</summary>
    public double GlareFraction { get; init; }

    /// <summary>Share of the vectors outside the masks whose windows have too little contrast, 0 to 1.</summary>
    public double LowTextureFraction { get; init; }

    /// <summary>Whether the frame was measured: neither failed nor left out.</summary>
    public bool IsMeasured => Failure is null && Rejection is null;

    /// <summary>The record of a frame's result.</summary>
    /// <param name="result">The frame's result.</param>
    public static FrameRecord Of(FrameResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        return new FrameRecord(
            result.Index, result.TimeSeconds, result.Source, result.Motion, result.NoiseFloorU, result.NoiseFloorV,
            result.ValidFraction, result.MeanLevel, result.SaturatedFraction, result.Failure, result.Warnings)
        {
            Rejection = result.Rejection,
            SigmaFactorU = result.SigmaFactorU,
            SigmaFactorV = result.SigmaFactorV,
            Light = result.Light,
            GlareFraction = Share(result.Field, VectorFlags.Saturated),
            LowTextureFraction = Share(result.Field, VectorFlags.LowTexture),
        };
    }

    private static double Share(VectorField field, VectorFlags wanted)
    {
        int outside = field.Flags.Count(flags => (flags & VectorFlags.Masked) == 0);
        return outside == 0 ? 0 : (double)field.Flags.Count(flags => (flags & (wanted | VectorFlags.Masked)) == wanted) / outside;
    }
}
