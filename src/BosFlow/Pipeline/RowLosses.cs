using BosFlow.Displacement;
using BosFlow.Registration;

namespace BosFlow.Pipeline;

/// <summary>Takes out the vectors of rows whose motion is not known: rows that the frame has lost at an edge or that lie beside such, or that have no undisturbed background.</summary>
/// <remarks>A window next to rows that the frame has lost is deformed by a motion that nothing measured there; its error is several times what its residuals show.</remarks>
internal static class RowLosses
{
    /// <summary>Sets such vectors to NaN, flagged, and says in how many rows.</summary>
    /// <param name="field">A field without the motion of the background; changed in place.</param>
    /// <param name="uncertainty">Uncertainty of that motion.</param>
    /// <param name="largestSigma">Largest standard uncertainty of the motion that is accepted, px.</param>
    /// <param name="isBesideLost">Whether a window at a place lies next to what the frame has lost: column and row, px.</param>
    /// <param name="warnings">Receives the sentence.</param>
    public static void TakeOut(VectorField field, IMotionUncertainty uncertainty, double largestSigma, Func<double, double, bool> isBesideLost, List<string> warnings)
    {
        NodeGrid grid = field.Grid;
        int rows = 0;
        for (int row = 0; row < grid.Rows; row++)
        {
            bool isLost = false;
            for (int column = 0; column < grid.Columns; column++)
            {
                int node = (row * grid.Columns) + column;
                if ((field.Flags[node] & VectorFlags.Masked) != 0 || (uncertainty.At(grid.X(column), grid.Y(row)).SigmaU <= largestSigma && !isBesideLost(grid.X(column), grid.Y(row))))
                    continue;
                isLost = true;
                field.U[node] = field.V[node] = field.SigmaU[node] = field.SigmaV[node] = float.NaN;
                field.Flags[node] |= VectorFlags.NotConverged;
            }

            rows += isLost ? 1 : 0;
        }

        if (rows > 0)
        {
            warnings.Add(FormattableString.Invariant(
                $"In {rows} of {grid.Rows} rows of vectors the motion of the picture's rows is not known well enough, for want of undisturbed background there or beyond the edge of the frame; their vectors are left out; leave more background beside the flow in these rows."));
        }
    }
}
