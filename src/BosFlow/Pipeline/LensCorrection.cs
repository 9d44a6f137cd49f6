using BosFlow.Camera;
using BosFlow.Displacement;
using BosFlow.Registration;

namespace BosFlow.Pipeline;

/// <summary>Turns what was measured in the picture as filmed into what an ideal lens would have shown. Safe to call from several threads.</summary>
/// <remarks>
/// Each vector's start and end are taken to the ideal picture, so that shake and flow keep their true size and a homography of the background stays one;
/// then the vectors, which no longer lie on a grid there, are interpolated to the nodes of the same grid in ideal coordinates. The pictures themselves
/// are never resampled. The uncertainty turns with the lens's derivatives at the vector's end and shrinks as a mean of errors that hang together by the overlap of windows does.
/// </remarks>
internal sealed class LensCorrection
{
    private readonly LensModel lens;
    private readonly NodeGrid grid;
    private readonly double[] correlation;
    private readonly (double X, double Y)[] starts;
    private readonly NodeInterpolation[] places;

    /// <summary>Prepares what depends on lens and grid.</summary>
    /// <param name="lens">The lens.</param>
    /// <param name="grid">Window centres, px of the picture as filmed; of the ideal picture for what comes out.</param>
    /// <param name="correlation">Correlation of the errors of vectors 0, 1, 2, ... nodes apart.</param>
    public LensCorrection(LensModel lens, NodeGrid grid, double[] correlation)
    {
        this.lens = lens;
        this.grid = grid;
        this.correlation = correlation;
        starts = [.. Nodes(grid).Select(node => lens.ToIdeal(node.X, node.Y))];
        places = [.. Nodes(grid).Select(node =>
        {
            (double x, double y) = lens.ToPicture(node.X, node.Y);
            return NodeInterpolation.At(grid, x, y);
        })];
    }

    /// <summary>Corrects a field of total displacements.</summary>
    /// <param name="total">Displacements in the picture as filmed, px.</param>
    /// <param name="motion">The motion near theirs, in the ideal picture. Only what is left beside it is interpolated, since rows may shake faster than nodes can follow.</param>
    /// <returns>Displacements in the ideal picture, px, on the same grid in ideal coordinates. A node that the picture does not show is out of frame.</returns>
    public VectorField Correct(VectorField total, IPictureMotion motion)
    {
        VectorField ideal = Straightened(total, motion);
        float[] u = new float[grid.Count];
        float[] v = new float[grid.Count];
        float[] sigmaU = new float[grid.Count];
        float[] sigmaV = new float[grid.Count];
        float[] peak = new float[grid.Count];
        float[] correlated = new float[grid.Count];
        float[]? side = ideal.WindowSide is null ? null : new float[grid.Count];
        float[]? order = ideal.ShapeOrder is null ? null : new float[grid.Count];
        var flags = new VectorFlags[grid.Count];
        for (int node = 0; node < grid.Count; node++)
        {
            NodeInterpolation place = places[node];
            if (!place.IsInside)
            {
                flags[node] = VectorFlags.OutOfFrame;
                u[node] = v[node] = sigmaU[node] = sigmaV[node] = peak[node] = correlated[node] = float.NaN;
                side?[node] = float.NaN;
                order?[node] = float.NaN;
                continue;
            }

            bool cubic = place.IsCubic(grid, ideal.Flags);
            double share = place.Variance(correlation, cubic);
            flags[node] = place.Flags(grid, ideal.Flags);
            (double motionU, double motionV) = motion.DisplacementAt(grid.X(node % grid.Columns), grid.Y(node / grid.Columns));
            u[node] = (float)(motionU + (cubic ? place.Cubic(grid, ideal.U) : place.Linear(grid, ideal.U)));
            v[node] = (float)(motionV + (cubic ? place.Cubic(grid, ideal.V) : place.Linear(grid, ideal.V)));
            sigmaU[node] = (float)(place.Linear(grid, ideal.SigmaU) * Math.Sqrt(share));
            sigmaV[node] = (float)(place.Linear(grid, ideal.SigmaV) * Math.Sqrt(share));
            peak[node] = (float)place.Linear(grid, ideal.PeakRatio);
            correlated[node] = (float)place.Linear(grid, ideal.Correlation);
            side?[node] = (float)place.Linear(grid, ideal.WindowSide!);
            order?[node] = (float)place.Linear(grid, ideal.ShapeOrder!);
        }

        return new VectorField { Grid = grid, U = u, V = v, SigmaU = sigmaU, SigmaV = sigmaV, Flags = flags, Correlation = correlated, PeakRatio = peak, WindowSide = side, ShapeOrder = order };
    }

    // The vectors in ideal pixels less the motion, still where they were measured.
    private VectorField Straightened(VectorField total, IPictureMotion motion)
    {
        float[] u = new float[grid.Count];
        float[] v = new float[grid.Count];
        float[] sigmaU = new float[grid.Count];
        float[] sigmaV = new float[grid.Count];
        VectorFlags[] flags = [.. total.Flags];
        int node = -1;
        foreach ((double x, double y) in Nodes(grid))
        {
            node++;
            (double endX, double endY) = lens.ToIdeal(x + total.U[node], y + total.V[node]);
            (double motionU, double motionV) = motion.DisplacementAt(starts[node].X, starts[node].Y);
            u[node] = (float)(endX - starts[node].X - motionU);
            v[node] = (float)(endY - starts[node].Y - motionV);
            if (float.IsNaN(u[node]) && !float.IsNaN(total.U[node]))
                flags[node] |= VectorFlags.OutOfFrame;
            LensSlopes back = lens.SlopesAt(endX, endY).Inverse();
            sigmaU[node] = (float)double.Hypot(back.XX * total.SigmaU[node], back.XY * total.SigmaV[node]);
            sigmaV[node] = (float)double.Hypot(back.YX * total.SigmaU[node], back.YY * total.SigmaV[node]);
        }

        return new VectorField { Grid = grid, U = u, V = v, SigmaU = sigmaU, SigmaV = sigmaV, Flags = flags, Correlation = total.Correlation, PeakRatio = total.PeakRatio, WindowSide = total.WindowSide, ShapeOrder = total.ShapeOrder };
    }

    private static IEnumerable<(double X, double Y)> Nodes(NodeGrid grid)
    {
        for (int node = 0; node < grid.Count; node++)
            yield return (grid.X(node % grid.Columns), grid.Y(node / grid.Columns));
    }
}
