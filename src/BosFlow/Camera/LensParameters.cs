namespace BosFlow.Camera;

/// <summary>The numbers of a lens on one camera at one picture size.</summary>
/// <remarks>Pixel centres are at integers, the first pixel is (0, 0).</remarks>
public sealed record LensParameters
{
    /// <summary>Family of the lens.</summary>
    public required LensKind Kind { get; init; }

    /// <summary>Width of the pictures that the numbers hold for, px.</summary>
    public required int Width { get; init; }

    /// <summary>Height of the pictures, px.</summary>
    public required int Height { get; init; }

    /// <summary>Focal length in pixel widths, greater than 0.</summary>
    public required double FocalX { get; init; }

    /// <summary>Focal length in pixel heights, greater than 0.</summary>
    public required double FocalY { get; init; }

    /// <summary>Column of the optical axis, px.</summary>
    public required double CentreX { get; init; }

    /// <summary>Row of the optical axis, px.</summary>
    public required double CentreY { get; init; }

    /// <summary>k1: first radial term, 1.</summary>
    public double Radial1 { get; init; }

    /// <summary>k2: second radial term, 1.</summary>
    public double Radial2 { get; init; }

    /// <summary>k3: third radial term, 1.</summary>
    public double Radial3 { get; init; }

    /// <summary>k4: fourth radial term, 1; fisheye only.</summary>
    public double Radial4 { get; init; }

    /// <summary>p1: first tangential term, 1; pinhole only.</summary>
    public double Tangential1 { get; init; }

    /// <summary>p2: second tangential term, 1; pinhole only.</summary>
    public double Tangential2 { get; init; }

    /// <summary>A lens without distortion, its axis in the middle of the picture.</summary>
    /// <param name="width">Width of the picture, px.</param>
    /// <param name="height">Height of the picture, px.</param>
    /// <param name="focalPixels">Focal length, px.</param>
    public static LensParameters Undistorted(int width, int height, double focalPixels) => new()
    {
        Kind = LensKind.Pinhole,
        Width = width,
        Height = height,
        FocalX = focalPixels,
        FocalY = focalPixels,
        CentreX = (width - 1) / 2.0,
        CentreY = (height - 1) / 2.0,
    };
}
