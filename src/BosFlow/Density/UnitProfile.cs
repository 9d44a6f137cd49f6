namespace BosFlow.Density;

/// <summary>Index profile of one station. Arrays run over the radii 0, step, 2 step, ...</summary>
internal sealed record UnitProfile
{
    /// <summary>Position along the axis, px from the frame's origin.</summary>
    public required double Along { get; init; }

    /// <summary>Slope of the projection, n0 times the turn of each ray; positive where the index grows outward.</summary>
    public required double[] Slope { get; init; }

    /// <summary>What the curvature of each ray adds to its slope; already taken off for the excess.</summary>
    public required double[] Correction { get; init; }

    /// <summary>The inversion used, for straight rays.</summary>
    public required SlopeInversion Inverse { get; init; }

    /// <summary>n - n0, 1.</summary>
    public required double[] Excess { get; init; }

    /// <summary>Standard uncertainty from the displacement.</summary>
    public required double[] Sigma { get; init; }

    /// <summary>n - n0 from the left side alone; NaN beyond its reach.</summary>
    public required double[] Left { get; init; }

    /// <summary>n - n0 from the right side alone; NaN beyond its reach.</summary>
    public required double[] Right { get; init; }

    /// <summary>Standard uncertainty of right minus left; NaN where one of them is missing.</summary>
    public required double[] SigmaDifference { get; init; }

    /// <summary>What holds at each radius.</summary>
    public required DensityFlags[] Flags { get; init; }

    /// <summary>Largest difference between the turn of curved and of straight rays over the largest turn, 1.</summary>
    public required double CurvedShare { get; init; }

    /// <summary>Slope of the projection where the measured part ends, over the largest slope, 1: 0 where the flow ends within the picture.</summary>
    public required double EdgeShare { get; init; }

    /// <summary>The same slope in units of its standard uncertainty.</summary>
    public required double EdgeSignificance { get; init; }
}
