using BosFlow.Optics;
using BosFlow.Statistics;

namespace BosFlow.Density;

/// <summary>What the conversion to density works on.</summary>
public sealed record DensityRequest
{
    /// <summary>Mean displacement with its standard uncertainty.</summary>
    public required FieldStatistics Mean { get; init; }

    /// <summary>Distances and camera.</summary>
    public required RigGeometry Rig { get; init; }

    /// <summary>Gas in the flow and around.</summary>
    public required GasSettings Gas { get; init; }

    /// <summary>Shape, surroundings, pressure of the flow.</summary>
    public required FlowSettings Flow { get; init; }

    /// <summary>Width of the picture, px: its middle is taken as the optical axis.</summary>
    public required int Width { get; init; }

    /// <summary>Height of the picture, px.</summary>
    public required int Height { get; init; }

    /// <summary>Correlation of the errors of two vectors that are 0, 1, 2, ... nodes apart along either axis, because their windows overlap; the first entry is 1.</summary>
    public double[] ErrorCorrelation { get; init; } = [1];

    /// <summary>Systematic part of the displacement's error; it is part of the mean's standard uncertainty too.</summary>
    public SubPixelBias Bias { get; init; } = SubPixelBias.None;

    /// <summary>What the fit of the background's motion leaves wrong in all vectors alike.</summary>
    public BackgroundMotionErrors Background { get; init; } = BackgroundMotionErrors.None;

    /// <summary>Share of the displacement that the windows miss, for a fourth difference of the nodes (second difference over both axes, twice) of 1; 0 = none.</summary>
    public double MissingPerFourthDifference { get; init; }

    /// <summary>Threads; the result does not depend on them.</summary>
    public int Threads { get; init; } = 1;
}
