namespace BosFlow.Displacement;

/// <summary>Makes the immutable result out of a frame's working state.</summary>
internal static class FieldOutput
{
    private const int RowsPerPart = 16;

    public static VectorField Build(NodeState state, StatedSigma sigma, DisplacementSettings settings, FrameThreads threads, CancellationToken cancellationToken)
    {
        int count = state.Grid.Count, partNodes = RowsPerPart * state.Grid.Columns;
        float[] u = Room(), v = Room(), sigmaU = Room(), sigmaV = Room(), correlation = Room(), peakRatio = Room();
        float[]? sides = settings.Windows == WindowSizing.Adaptive ? Room() : null, orders = settings.Shape == WindowShape.Constant ? null : Room();
        var flags = GC.AllocateUninitializedArray<VectorFlags>(count);
        threads.Run((count + partNodes - 1) / partNodes, Fill, cancellationToken);

        // Every node is written below.
        float[] Room() => GC.AllocateUninitializedArray<float>(count);

        void Fill(int part)
        {
            int first = part * partNodes, length = Math.Min(count - first, partNodes);
            state.Flags.AsSpan(first, length).CopyTo(flags.AsSpan(first));
            state.Correlation.AsSpan(first, length).CopyTo(correlation.AsSpan(first));
            state.PeakRatio.AsSpan(first, length).CopyTo(peakRatio.AsSpan(first));
            for (int node = first; node < first + length; node++)
            {
                bool replaced = state.Flags[node].HasFlag(VectorFlags.OutlierReplaced), isMeasured = !replaced && !float.IsNaN(state.U[node]);
                u[node] = state.MotionU[node] + state.U[node];
                v[node] = state.MotionV[node] + state.V[node];
                sigmaU[node] = replaced ? float.NaN : sigma.Of(node, state.SigmaU[node], state.ScatterU[node], state.IsHalf[node], state.ShapeOrder[node], state.MissingU[node] + state.CoarseVariance);
                sigmaV[node] = replaced ? float.NaN : sigma.Of(node, state.SigmaV[node], state.ScatterV[node], state.IsHalf[node], state.ShapeOrder[node], state.MissingV[node] + state.CoarseVariance);
                if (sides is not null)
                    sides[node] = !isMeasured ? float.NaN : state.IsHalf[node] ? settings.WindowPixels / 2 : settings.WindowPixels;
                if (orders is not null)
                    orders[node] = isMeasured ? state.ShapeOrder[node] : float.NaN;
            }
        }

        return new VectorField
        {
            Grid = state.Grid,
            U = u,
            V = v,
            SigmaU = sigmaU,
            SigmaV = sigmaV,
            Flags = flags,
            Correlation = correlation,
            PeakRatio = peakRatio,
            WindowSide = sides,
            ShapeOrder = orders,
        };
    }
}
