using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Boards;

/// <summary>A board as it goes to the printer: the dots, the sheets, and what the legend says of where they come from.</summary>
public sealed record BoardPrint
{
    /// <summary>Dots and marks.</summary>
    public required Board Board { get; init; }

    /// <summary>How the board lies on sheets.</summary>
    public required SheetPlan Plan { get; init; }

    /// <summary>Date in the legend; it is nowhere else in the drawings but in the PDF's own record of when it was made.</summary>
    public required DateOnly Date { get; init; }

    /// <summary>Version of the program, for the legend.</summary>
    public required string ProgramVersion { get; init; }

    /// <summary>Whether the board lies on more than one sheet.</summary>
    public bool IsTiled => Plan.Sheets.Count > 1;
}
