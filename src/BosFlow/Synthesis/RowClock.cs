namespace BosFlow.Synthesis;

/// <summary>When the rows of one frame are exposed.</summary>
/// <param name="FrameSeconds">Middle of the exposure of row 0, s since the first frame.</param>
/// <param name="ReadoutSeconds">Time from there to the row after the last, s; 0 = all rows at once.</param>
/// <param name="Height">Height of the picture, px.</param>
public readonly record struct RowClock(double FrameSeconds, double ReadoutSeconds, int Height)
{
    /// <summary>Time from one row to the next, s.</summary>
    public double SecondsPerRow => ReadoutSeconds / Height;

    /// <summary>Middle of the exposure of a row, s since the first frame: FrameSeconds + ReadoutSeconds * row / Height.</summary>
    /// <param name="row">The row, px; also between two rows.</param>
    public double At(double row) => FrameSeconds + (SecondsPerRow * row);
}
