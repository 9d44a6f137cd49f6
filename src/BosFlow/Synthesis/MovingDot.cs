using BosFlow.Speckle;

namespace BosFlow.Synthesis;

/// <summary>
/// A dot while the rows across it are read: in the row that is d rows below its centre it is seen at Centre + Slope d + Bend d^2.
/// </summary>
/// <param name="Centre">Where the row through its centre sees it.</param>
/// <param name="SlopeX">Motion to the right from row to row, px.</param>
/// <param name="SlopeY">Motion down from row to row, px, within -1 to 1.</param>
/// <param name="BendX">Half the change of SlopeX from row to row, px.</param>
/// <param name="BendY">Half the change of SlopeY from row to row, px.</param>
internal readonly record struct MovingDot(Dot Centre, double SlopeX, double SlopeY, double BendX, double BendY)
{
    /// <summary>Where a row sees the dot.</summary>
    public (double X, double Y) At(double row)
    {
        double d = row - Centre.Y;
        return (Centre.X + (d * (SlopeX + (d * BendX))), Centre.Y + (d * (SlopeY + (d * BendY))));
    }
}
