using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Boards;

/// <summary>A printed board with what its description says beside it.</summary>
public sealed record BoardDocument
{
    private readonly int? statedDots;

    /// <summary>The board; without dots where the description was read without them.</summary>
    public required Board Board { get; init; }

    /// <summary>How it lies on sheets; null = drawn in one piece.</summary>
    public SheetPlan? Sheets { get; init; }

    /// <summary>Date that is printed in its legend.</summary>
    public required DateOnly Date { get; init; }

    /// <summary>Version of the program that made it.</summary>
    public required string ProgramVersion { get; init; }

    /// <summary>Number of dots on the board, also where they were not read.</summary>
    public int DotCount
    {
        get => statedDots ?? Board.Dots.Count;
        init => statedDots = value;
    }
}
