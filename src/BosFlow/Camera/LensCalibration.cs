namespace BosFlow.Camera;

/// <summary>A lens found from pictures of a plane target.</summary>
public sealed record LensCalibration
{
    private const int CellsAcross = 8;
    private const int CellsDown = 6;
    private const double CornerShare = 0.2;

    /// <summary>The lens.</summary>
    public required LensParameters Lens { get; init; }

    /// <summary>Standard uncertainty of each number of the lens, by <see cref="LensUncertainty"/>; size and family are those of the lens.</summary>
    public required LensParameters StandardUncertainty { get; init; }

    /// <summary>The pictures that it rests on, at least three.</summary>
    public required IReadOnlyList<CalibratedView> Views { get; init; }

    /// <summary>Pictures that were left out, each with the reason as a sentence.</summary>
    public required IReadOnlyList<(string Source, string Reason)> Rejected { get; init; }

    /// <summary>RMS distance of the points from where the lens puts them, px.</summary>
    public double Rms => Math.Sqrt(Views.SelectMany(view => view.Misses).Average(miss => (miss.X * miss.X) + (miss.Y * miss.Y)));

    /// <summary>The longest such distance, px.</summary>
    public double Largest => Views.Max(view => view.Largest);

    /// <summary>Share of the picture's area in which points were seen, of 8 x 6 equal parts, 0 to 1.</summary>
    public double Coverage => (double)Points
        .Select(point => ((int)(CellsAcross * (point.Column + 0.5) / Lens.Width), (int)(CellsDown * (point.Row + 0.5) / Lens.Height)))
        .Distinct().Count() / (CellsAcross * CellsDown);

    /// <summary>Corners of the picture in whose fifth of width and height no point was seen, in words.</summary>
    public IReadOnlyList<string> UncoveredCorners => [.. new[] { ("upper left", 0, 0), ("upper right", 1, 0), ("lower left", 0, 1), ("lower right", 1, 1) }
        .Where(corner => !Points.Any(point => IsNear(point.Column + 0.5, Lens.Width, corner.Item2) && IsNear(point.Row + 0.5, Lens.Height, corner.Item3)))
        .Select(corner => corner.Item1)];

    /// <summary>The largest angle between the target's normals in two pictures, rad.</summary>
    public double LargestTurn => Views.SelectMany(a => Views.Select(b => Angle(a.Pose.Normal, b.Pose.Normal))).Max();

    private IEnumerable<TargetPoint> Points => Views.SelectMany(view => view.View.Points);

    private static bool IsNear(double place, int length, int end) => end == 0 ? place <= CornerShare * length : place >= (1 - CornerShare) * length;

    private static double Angle((double X, double Y, double Z) a, (double X, double Y, double Z) b) =>
        Math.Acos(Math.Clamp((a.X * b.X) + (a.Y * b.Y) + (a.Z * b.Z), -1, 1));
}
