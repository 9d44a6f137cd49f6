namespace BosFlow.Inspection;

/// <summary>By how much the printer stretched the board.</summary>
public sealed record PrintScaleCheck
{
    /// <summary>Printed length over nominal length along x, 1; null where nothing measures millimetres.</summary>
    public double? X { get; init; }

    /// <summary>Standard uncertainty of <see cref="X"/>.</summary>
    public double SigmaX { get; init; } = double.NaN;

    /// <summary>Printed length over nominal length along y, 1; null where nothing measures millimetres.</summary>
    public double? Y { get; init; }

    /// <summary>Standard uncertainty of <see cref="Y"/>.</summary>
    public double SigmaY { get; init; } = double.NaN;

    /// <summary>Stretch along x over stretch along y.</summary>
    public required double Ratio { get; init; }

    /// <summary>Standard uncertainty of <see cref="Ratio"/>.</summary>
    public required double RatioSigma { get; init; }

    /// <summary>What the figures rest on, in words.</summary>
    public required string Basis { get; init; }

    /// <summary>Mean of both scales; 1 where nothing measures millimetres.</summary>
    public double Mean => X is { } x && Y is { } y ? Math.Sqrt(x * y) : 1;
}
