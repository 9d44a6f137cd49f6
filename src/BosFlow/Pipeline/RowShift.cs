using BosFlow.Camera;
using BosFlow.Displacement;
using BosFlow.Registration;

namespace BosFlow.Pipeline;

/// <summary>Takes out what a dot sees of the motion because the flow has moved it to another row, which was read at another time.</summary>
/// <remarks>
/// Without flow a point of the reference is found at the row r0 of the frame, with it at r0 + dv, where the camera stood otherwise by m'(r0) dv, m(r) being the motion of the
/// frame's rows: u - m_u' dv is the flow's. The fitted motion D(y) is that of the frame against the reference, which was shaken too: D' = m' (1 + D_v') - m_ref', and the mean
/// over many flow-off frames of their D is -m_ref (derived here). With a tenth of a pixel a row and a flow of half a pixel this is a twentieth of a pixel.
/// </remarks>
internal static class RowShift
{
    /// <summary>Corrects the vectors in place.</summary>
    /// <param name="field">A field without the motion of the background.</param>
    /// <param name="motion">That motion.</param>
    /// <param name="reference">How the rows of the flow-off frames lie against those of the reference in the mean; null = the reference is taken to be at rest.</param>
    public static void TakeOut(VectorField field, RowMotion motion, RowMotion? reference)
    {
        NodeGrid grid = field.Grid;
        for (int node = 0; node < grid.Count; node++)
        {
            double x = grid.X(node % grid.Columns);
            double y = grid.Y(node / grid.Columns);
            (double slopeU, double slopeV) = motion.SlopeAt(x, y);
            (double meanU, double meanV) = reference?.SlopeAt(x, y) ?? (0, 0);
            double stretch = 1 + slopeV;
            double change = SensorRows(motion.Model.Lens, x, y, field.U[node], field.V[node]);
            field.U[node] -= (float)((slopeU - meanU) / stretch * change);
            field.V[node] -= (float)((slopeV - meanV) / stretch * change);
        }
    }

    // By how many rows of the sensor a displacement of the ideal picture moves a dot.
    private static double SensorRows(LensModel? lens, double x, double y, double u, double v)
    {
        if (lens is null)
            return v;
        LensSlopes slopes = lens.SlopesAt(x, y);
        return (slopes.YX * u) + (slopes.YY * v);
    }
}
