using BosFlow.Camera;

namespace BosFlow.Inspection;

/// <summary>A printed board read back from a photo.</summary>
public sealed record BoardCheck
{
    /// <summary>Identities of the fiducials found, ascending.</summary>
    public required IReadOnlyList<int> FiducialsFound { get; init; }

    /// <summary>Number of the board's fiducials that lie within the photo.</summary>
    public required int FiducialsInView { get; init; }

    /// <summary>Number of fiducials on the board.</summary>
    public required int FiducialsOnBoard { get; init; }

    /// <summary>How the board lies before the camera.</summary>
    public required PlaneFitResult Plane { get; init; }

    /// <summary>Standard deviation of the blur of an edge, px.</summary>
    public required double BlurPixels { get; init; }

    /// <summary>The sizes of the dots, largest first.</summary>
    public required IReadOnlyList<DotSizeCheck> Sizes { get; init; }

    /// <summary>Covered share of the area looked at, by the description, 1.</summary>
    public required double NominalCoverage { get; init; }

    /// <summary>Covered share of the same area in the photo, 1.</summary>
    public required double Coverage { get; init; }

    /// <summary>Standard uncertainty of <see cref="Coverage"/>.</summary>
    public required double CoverageSigma { get; init; }

    /// <summary>By how much diameters exceed those drawn, m: the ink gain to print with. NaN where the photo does not tell.</summary>
    public required double InkGainMetres { get; init; }

    /// <summary>Standard uncertainty of <see cref="InkGainMetres"/>, m.</summary>
    public required double InkGainSigma { get; init; }

    /// <summary>Whether diameters were measured dot by dot; else they follow from the covered area.</summary>
    public required bool IsSingle { get; init; }

    /// <summary>Grey level of the paper in the fiducials, part of full scale.</summary>
    public required double PaperLevel { get; init; }

    /// <summary>Grey level of the ink in the fiducials, part of full scale.</summary>
    public required double InkLevel { get; init; }

    /// <summary>Largest over smallest light over the board, minus 1.</summary>
    public required double LightUnevenness { get; init; }

    /// <summary>The printer's scale.</summary>
    public required PrintScaleCheck Scale { get; init; }

    /// <summary>What each property came to.</summary>
    public required IReadOnlyList<CheckFinding> Findings { get; init; }

    /// <summary>Every dot that was looked for.</summary>
    public required IReadOnlyList<CheckedDot> Dots { get; init; }

    /// <summary>Paper minus ink, part of full scale.</summary>
    public double Contrast => PaperLevel - InkLevel;

    /// <summary>Whether nothing was found beyond its limit.</summary>
    public bool IsGood => Findings.All(finding => finding.State != CheckState.Bad);
}
