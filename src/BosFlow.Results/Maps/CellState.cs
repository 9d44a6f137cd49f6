namespace BosFlow.Results.Maps;

/// <summary>How a map shows a place.</summary>
public enum CellState
{
    /// <summary>A value in its colour; grey where it is NaN.</summary>
    Plain,

    /// <summary>A value in its colour with a dot: it is not a plain result.</summary>
    Marked,

    /// <summary>Hatched: masked by the case.</summary>
    Masked,
}
