namespace BosFlow.Displacement;

/// <summary>Makes the immutable result out of a frame's working state.</summary>
internal static class FieldOutput
{
    public static VectorField Build(NodeState state, StatedSigma sigma)
    {
        int count = state.Grid.Count;
        float[] u = new float[count], v = new float[count], sigmaU = new float[count], sigmaV = new float[count];
        for (int node = 0; node < count; node++)
        {
            bool replaced = state.Flags[node].HasFlag(VectorFlags.OutlierReplaced);
            u[node] = state.MotionU[node] + state.U[node];
            v[node] = state.MotionV[node] + state.V[node];
            sigmaU[node] = replaced ? float.NaN : sigma.Of(node, state.SigmaU[node], state.ScatterU[node]);
            sigmaV[node] = replaced ? float.NaN : sigma.Of(node, state.SigmaV[node], state.ScatterV[node]);
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
        };
    }
}
