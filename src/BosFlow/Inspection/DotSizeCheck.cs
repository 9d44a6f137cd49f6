namespace BosFlow.Inspection;

/// <summary>What was measured of the dots of one size.</summary>
public sealed record DotSizeCheck
{
    /// <summary>Diameter by the description, m.</summary>
    public required double NominalMetres { get; init; }

    /// <summary>Diameter of its image, px: the mean over the dots looked at.</summary>
    public required double ImagePixels { get; init; }

    /// <summary>Number of dots looked at: whole in the photo and between the fiducials found.</summary>
    public required int Expected { get; init; }

    /// <summary>Number of them that are there; null where the image is too small to count.</summary>
    public int? Found { get; init; }

    /// <summary>Median of the diameters of single dots, m; NaN where they are too small or lie too close.</summary>
    public required double DiameterMetres { get; init; }

    /// <summary>Standard uncertainty of that median, m.</summary>
    public required double DiameterSigma { get; init; }

    /// <summary>Standard deviation of one dot about the median, m.</summary>
    public required double DiameterScatter { get; init; }
}
