namespace BosFlow.Displacement;

/// <summary>Makes the immutable result out of a frame's working state.</summary>
internal static class FieldOutput
{
    private const int RowsPerPart = 16;

    public static VectorField Build(NodeState state, StatedSigma sigma, DisplacementSettings settings, FrameThreads threads, CancellationToken cancellationToken)
    {
        int count = state.Grid.Count, partNodes = RowsPerPart * state.Grid.Columns;
        float[] u = new float[count], v = new float[count], sigmaU = new float[count], sigmaV = new float[count];
        threads.Run((count + partNodes - 1) / partNodes, Fill, cancellationToken);

        void Fill(int part)
        {
            for (int node = part * partNodes; node < Math.Min(count, (part + 1) * partNodes); node++)
            {
                bool replaced = state.Flags[node].HasFlag(VectorFlags.OutlierReplaced);
                u[node] = state.MotionU[node] + state.U[node];
                v[node] = state.MotionV[node] + state.V[node];
                sigmaU[node] = replaced ? float.NaN : sigma.Of(node, state.SigmaU[node], state.ScatterU[node], state.IsHalf[node], state.ShapeOrder[node], state.MissingU[node] + state.CoarseVariance);
                sigmaV[node] = replaced ? float.NaN : sigma.Of(node, state.SigmaV[node], state.ScatterV[node], state.IsHalf[node], state.ShapeOrder[node], state.MissingV[node] + state.CoarseVariance);
            }
        }

        return new VectorField
        {
            Grid = state.Grid,
            U = u,
            V = v,
            SigmaU = sigmaU,
            SigmaV = sigmaV,
            Flags = [.. state.Flags],
            Correlation = [.. state.Correlation],
            PeakRatio = [.. state.PeakRatio],
            WindowSide = settings.Windows == WindowSizing.Adaptive ? WindowSides(state, settings.WindowPixels) : null,
            ShapeOrder = settings.Shape == WindowShape.Constant ? null : ShapeOrders(state),
        };
    }

    private static float[] ShapeOrders(NodeState state)
    {
        float[] orders = new float[state.Grid.Count];
        for (int node = 0; node < orders.Length; node++)
            orders[node] = IsMeasured(state, node) ? state.ShapeOrder[node] : float.NaN;
        return orders;
    }

    private static bool IsMeasured(NodeState state, int node) => !float.IsNaN(state.U[node]) && !state.Flags[node].HasFlag(VectorFlags.OutlierReplaced);

    private static float[] WindowSides(NodeState state, int whole)
    {
        float[] sides = new float[state.Grid.Count];
        for (int node = 0; node < sides.Length; node++)
            sides[node] = !IsMeasured(state, node) ? float.NaN : state.IsHalf[node] ? whole / 2 : whole;
        return sides;
    }
}
