namespace BosFlow.Triage;

/// <summary>What changes from one sampled frame to the next.</summary>
public sealed record PairReading
{
    /// <summary>Number of the first frame.</summary>
    public required int Index { get; init; }

    /// <summary>Run of neighbours that both belong to.</summary>
    public required int Burst { get; init; }

    /// <summary>Mean absolute difference of the grey levels, share of white.</summary>
    public required double Difference { get; init; }

    /// <summary>Why no motion was found, one sentence; null where one was.</summary>
    public string? Failure { get; init; }

    /// <summary>Motion of the picture's middle to the right, px.</summary>
    public double ShiftX { get; init; } = double.NaN;

    /// <summary>Motion of the picture's middle downwards, px.</summary>
    public double ShiftY { get; init; } = double.NaN;

    /// <summary>Rotation of the whole picture, clockwise as seen, degrees.</summary>
    public double RotationDegrees { get; init; } = double.NaN;

    /// <summary>Row-wise shift that motion of the whole picture does not explain, px RMS along x and y together; its noise is taken off.</summary>
    public double Wobble { get; init; } = double.NaN;

    /// <summary>How many times that shift swings over the rows of a picture.</summary>
    public double WobbleCycles { get; init; } = double.NaN;

    /// <summary>Motion of each of the rows looked at, from the top, px; rotation and scale are taken off. NaN where a row showed too little; empty where no motion was found.</summary>
    public IReadOnlyList<(double X, double Y)> RowShifts { get; init; } = [];

    /// <summary>Noise of one component of a vector, px, measured by the engine on a part of the picture; NaN where this pair was not measured.</summary>
    public double NoiseFloor { get; init; } = double.NaN;
}
