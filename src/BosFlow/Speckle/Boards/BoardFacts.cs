namespace BosFlow.Speckle.Boards;

/// <summary>What a run writes down of the printed board that it filmed: enough to print it again, without its dots.</summary>
public sealed record BoardFacts
{
    /// <summary>File name of the description, without its folder.</summary>
    public required string Description { get; init; }

    /// <summary>SHA-256 of the description, 64 hexadecimal digits.</summary>
    public required string Sha256 { get; init; }

    /// <summary>Width of the board, m.</summary>
    public required double WidthMetres { get; init; }

    /// <summary>Height of the board, m.</summary>
    public required double HeightMetres { get; init; }

    /// <summary>Sizes of the dots, largest first.</summary>
    public required IReadOnlyList<DotSize> DotSizes { get; init; }

    /// <summary>Number of dots.</summary>
    public required int Dots { get; init; }

    /// <summary>Part of the pattern's area that dots cover, 1.</summary>
    public required double Coverage { get; init; }

    /// <summary>Dots against ground.</summary>
    public required BoardTones Tones { get; init; }

    /// <summary>Seed of the pattern.</summary>
    public required ulong Seed { get; init; }

    /// <summary>Number of fiducials.</summary>
    public required int Fiducials { get; init; }

    /// <summary>The facts of a board.</summary>
    /// <param name="board">The board; its dots need not be there.</param>
    /// <param name="dots">Number of its dots.</param>
    /// <param name="description">File name of its description.</param>
    /// <param name="sha256">SHA-256 of that file.</param>
    public static BoardFacts Of(Board board, int dots, string description, string sha256)
    {
        ArgumentNullException.ThrowIfNull(board);
        return new BoardFacts
        {
            Description = description,
            Sha256 = sha256,
            WidthMetres = board.Settings.WidthMetres,
            HeightMetres = board.Settings.HeightMetres,
            DotSizes = board.Settings.Sizes,
            Dots = dots,
            Coverage = board.CoverageReached,
            Tones = board.Settings.Tones,
            Seed = board.Settings.Seed,
            Fiducials = board.Fiducials.Count,
        };
    }
}
