using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;

namespace BosFlow.Pipeline;

/// <summary>The result of a frame that could not be measured, or was left out: every vector NaN and flagged, and the reason.</summary>
internal sealed class FrameFailure
{
    private readonly Frame frame;
    private readonly NodeGrid grid;
    private readonly PixelMask measurable;

    public FrameFailure(Frame frame, NodeGrid grid, PixelMask measurable)
    {
        this.frame = frame;
        this.grid = grid;
        this.measurable = measurable;
    }

    /// <summary>The flag that fits a frame whose grey levels are at fault.</summary>
    public static VectorFlags FlagOf(FrameQuality quality) =>
        quality.SaturatedFraction > 0.5 ? VectorFlags.Saturated : VectorFlags.LowTexture;

    /// <summary>The result.</summary>
    /// <param name="reason">One sentence for the user.</param>
    /// <param name="flag">The flag of every vector outside the masks.</param>
    /// <param name="quality">What is known of the grey levels; null where nothing is.</param>
    public FrameResult Because(string reason, VectorFlags flag, FrameQuality? quality) => Empty(flag, quality) with { Failure = reason };

    /// <summary>The result of a frame that is left out.</summary>
    /// <param name="reason">One sentence for the user.</param>
    /// <param name="quality">What is known of the grey levels.</param>
    public FrameResult LeftOut(string reason, FrameQuality quality) => Empty(VectorFlags.NotConverged, quality) with { Rejection = reason };

    private FrameResult Empty(VectorFlags flag, FrameQuality? quality) => new()
    {
        Index = frame.Index,
        TimeSeconds = frame.TimeSeconds,
        Source = frame.Source,
        Field = EmptyField(flag),
        Motion = PlanarMotion.Identity,
        NoiseFloorU = double.NaN,
        NoiseFloorV = double.NaN,
        ValidFraction = 0,
        MeanLevel = quality?.MeanLevel ?? double.NaN,
        SaturatedFraction = quality?.SaturatedFraction ?? double.NaN,
    };

    private VectorField EmptyField(VectorFlags flag)
    {
        var flags = new VectorFlags[grid.Count];
        for (int node = 0; node < flags.Length; node++)
        {
            int x = Math.Clamp((int)grid.X(node % grid.Columns), 0, measurable.Width - 1);
            int y = Math.Clamp((int)grid.Y(node / grid.Columns), 0, measurable.Height - 1);
            flags[node] = measurable[x, y] ? flag : VectorFlags.Masked;
        }

        return new VectorField
        {
            Grid = grid,
            U = NotMeasured(),
            V = NotMeasured(),
            SigmaU = NotMeasured(),
            SigmaV = NotMeasured(),
            Flags = flags,
            Correlation = NotMeasured(),
            PeakRatio = NotMeasured(),
        };
    }

    private float[] NotMeasured()
    {
        float[] values = new float[grid.Count];
        Array.Fill(values, float.NaN);
        return values;
    }
}
