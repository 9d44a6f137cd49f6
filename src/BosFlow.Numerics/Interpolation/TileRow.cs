namespace BosFlow.Numerics.Interpolation;

/// <summary>A row of tiles of a reference picture, 16 px wide and Rows high, and where the deformation finds their pixels in a frame.</summary>
public readonly ref struct TileRow
{
    /// <summary>Width of a tile, px.</summary>
    public const int Columns = 16;

    /// <summary>First column of pixels.</summary>
    public required int X { get; init; }

    /// <summary>First row of pixels.</summary>
    public required int Y { get; init; }

    /// <summary>Height of the tiles, px.</summary>
    public required int Rows { get; init; }

    /// <summary>1 where a tile is to be summed: every pixel of it is used, and falls at least <see cref="BSplineWarp.BorderMargin"/> within the frame. One entry a tile.</summary>
    public required ReadOnlySpan<byte> Summed { get; init; }

    /// <summary>Four rows of displacement to the right, px, between which the displacement is interpolated; entry x of a row belongs to column x of the picture.</summary>
    public required ReadOnlySpan<float> U { get; init; }

    /// <summary>The same, down.</summary>
    public required ReadOnlySpan<float> V { get; init; }

    /// <summary>Floats from one of the four rows to the next.</summary>
    public required int Stride { get; init; }

    /// <summary>Weights of the four rows in each row of pixels: 4 * Rows entries.</summary>
    public required ReadOnlySpan<float> Weights { get; init; }

    /// <summary>Reference, tile by tile, row by row: 16 grey levels, 16 derivatives to the right, 16 derivatives down, in steps; in 16 bits each, since reading them takes as long as the work on them.</summary>
    public required ReadOnlySpan<short> Reference { get; init; }

    /// <summary>Step of the reference's grey levels.</summary>
    public required float LevelStep { get; init; }

    /// <summary>Step of its derivatives.</summary>
    public required float GradientStep { get; init; }

    /// <summary>Grey level taken off the frame.</summary>
    public required float FrameLevel { get; init; }
}
