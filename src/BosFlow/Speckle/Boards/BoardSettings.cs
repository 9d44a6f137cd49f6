namespace BosFlow.Speckle.Boards;

/// <summary>What a printed background shall be. The same settings give the same board, dot for dot.</summary>
public sealed record BoardSettings
{
    /// <summary>Largest number of dots of a board: its description and its drawing stay within some hundred megabytes.</summary>
    public const int MostDots = 20_000_000;

    /// <summary>Width of the whole board with its edge strips, m.</summary>
    public required double WidthMetres { get; init; }

    /// <summary>Height of the whole board with its edge strips, m.</summary>
    public required double HeightMetres { get; init; }

    /// <summary>Sizes of the dots, largest first.</summary>
    public required IReadOnlyList<DotSize> Sizes { get; init; }

    /// <summary>Part of the pattern's area that dots cover, 0 to 1 (fiducials and their white zones do not count as area).</summary>
    public double Coverage { get; init; } = 0.35;

    /// <summary>Least gap between the edges of two dots, m; null = a tenth of the smallest diameter.</summary>
    public double? LeastGapMetres { get; init; }

    /// <summary>Dots against ground.</summary>
    public BoardTones Tones { get; init; } = BoardTones.Dark;

    /// <summary>Seed of every draw.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Whether the board carries fiducials.</summary>
    public bool WithFiducials { get; init; } = true;

    /// <summary>Side of a fiducial, m; null = 16 times the largest dot, so that each of its 8 cells is two dots wide, or less where the board is small.</summary>
    public double? FiducialSideMetres { get; init; }

    /// <summary>By how much ink makes a disc larger than drawn (diameter), m; discs are drawn smaller by it. Measured with print --check.</summary>
    public double InkGainMetres { get; init; }

    /// <summary>Longest a ruler may be, m; it is as long as fits, in steps of 10 mm. 0 = no rulers. On a board cut to sheets, what fits the first sheet: see <see cref="SheetPlan.LongestRulerMetres"/>.</summary>
    public double LongestRulerMetres { get; init; } = 0.2;

    /// <summary>Least gap between the edges of two dots, m: the one asked for, else a tenth of the smallest diameter.</summary>
    public double GapMetres => LeastGapMetres ?? (Sizes[^1].DiameterMetres / 10);

    /// <summary>Side of the fiducials, m: the one asked for, else 16 times the largest dot or what a small board has room for.</summary>
    public double FiducialMetres => FiducialSideMetres ?? FiducialRing.DefaultSide(Sizes, BoardLayout.PatternOf(this));

    /// <summary>Everything that is wrong with these settings, one sentence each with the limit; empty where nothing is.</summary>
    public IReadOnlyList<string> Problems() => BoardSettingsCheck.Problems(this);
}
