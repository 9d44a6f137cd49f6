namespace BosFlow.Planning;

/// <summary>A printed background as far as a plan needs it.</summary>
public sealed record PlannedBoard
{
    /// <summary>Width, m; null = as large as the camera sees.</summary>
    public double? WidthMetres { get; init; }

    /// <summary>Height, m; null = as large as the camera sees.</summary>
    public double? HeightMetres { get; init; }

    /// <summary>Diameter of a dot on the paper, m; null = the one that the plan recommends.</summary>
    public double? DotMetres { get; init; }

    /// <summary>Part of the area that dots cover, 0 to 1.</summary>
    public double Coverage { get; init; } = 0.35;

    /// <summary>Grey level of paper minus grey level of ink in the picture, part of full scale, 0 to 1.</summary>
    public double Contrast { get; init; } = 0.6;

    /// <summary>Depth over which the board is uneven or tilted along the line of sight, m, 0 or more.</summary>
    public double DepthMetres { get; init; }
}
