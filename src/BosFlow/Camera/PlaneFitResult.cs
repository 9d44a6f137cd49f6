namespace BosFlow.Camera;

/// <summary>How a plane lies before the camera, from points of it that were found in the picture.</summary>
public sealed record PlaneFitResult
{
    /// <summary>From plane to picture.</summary>
    public required PlaneMap Map { get; init; }

    /// <summary>The camera that explains the picture best; only its map and the figures below are well known, its parts trade against each other.</summary>
    public required PlaneCamera Camera { get; init; }

    /// <summary>Number of points that the fit rests on.</summary>
    public required int Points { get; init; }

    /// <summary>RMS distance of a point from where the fit sees it, px.</summary>
    public required double RmsPixels { get; init; }

    /// <summary>The same on the plane, m.</summary>
    public required double RmsMetres { get; init; }

    /// <summary>Printed stretch along x over printed stretch along y, 1.</summary>
    public required double Ratio { get; init; }

    /// <summary>Standard uncertainty of <see cref="Ratio"/>, with what the unknown tilt, focal length, centre and lens leave.</summary>
    public required double RatioSigma { get; init; }

    /// <summary>Angle between the line of sight and the plane's normal, rad.</summary>
    public required double TiltRadians { get; init; }

    /// <summary>Standard uncertainty of the tilt, rad.</summary>
    public required double TiltSigma { get; init; }

    /// <summary>By how much the edges of the squares lie outside their nominal place, m: ink that runs, or a bright exposure.</summary>
    public required double EdgeGrowthMetres { get; init; }

    /// <summary>Mean scale over the points asked about, px/m: the square root of the mean scale of area.</summary>
    public required double PixelsPerMetre { get; init; }

    /// <summary>Standard uncertainty of <see cref="PixelsPerMetre"/>, px/m, by the covariance of the fit; it takes the errors of the points as independent.</summary>
    public required double PixelsPerMetreSigma { get; init; }
}
