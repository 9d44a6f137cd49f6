namespace BosFlow.Displacement;

/// <summary>Makes the immutable result out of a frame's working state.</summary>
internal static class FieldOutput
{
    public static VectorField Build(NodeState state, DisplacementSettings settings)
    {
        int count = state.Grid.Count;
        float bias = (float)InterpolationBias.Pixels(settings.Interpolation);
        float[] u = new float[count], v = new float[count], sigmaU = new float[count], sigmaV = new float[count];
        for (int node = 0; node < count; node++)
        {
            bool replaced = state.Flags[node].HasFlag(VectorFlags.OutlierReplaced);
            u[node] = state.MotionU[node] + state.U[node];
            v[node] = state.MotionV[node] + state.V[node];
            sigmaU[node] = replaced ? float.NaN : Combine(state.SigmaU[node], bias);
            sigmaV[node] = replaced ? float.NaN : Combine(state.SigmaV[node], bias);
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

    private static float Combine(float random, float bias) => MathF.Sqrt((random * random) + (bias * bias));
}
