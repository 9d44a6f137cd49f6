namespace BosFlow.Speckle.Boards;

/// <summary>How dots stand out against the ground.</summary>
public enum BoardTones
{
    /// <summary>Black dots on white.</summary>
    Dark,

    /// <summary>White dots on black: for transparencies, and where the board would otherwise glare.</summary>
    Inverted,

    /// <summary>Black and white dots, half of the area each, on middle grey: for printers that print grey without a visible screen.</summary>
    TwoTone,
}
