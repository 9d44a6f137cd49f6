namespace BosFlow.Displacement;

/// <summary>Puts the median of the trusted neighbours in the place of vectors that are not to be believed.</summary>
internal static class OutlierReplacement
{
    /// <summary>For the predictor of the next pass: outliers and every flagged vector are replaced, by NaN where too few neighbours are trusted.</summary>
    public static void ForSteering(NodeState state, double threshold, double noise)
    {
        (bool[] trusted, _) = Judge(state, threshold, noise);
        for (int node = 0; node < trusted.Length; node++)
        {
            if (!trusted[node])
                Replace(state, node, trusted, byMedian: true);
        }
    }

    /// <summary>For the result: outliers alone are replaced and flagged; a vector that carries another flag keeps its value.</summary>
    public static void ForResult(NodeState state, double threshold, double noise, bool byMedian)
    {
        (bool[] trusted, bool[] outliers) = Judge(state, threshold, noise);
        for (int node = 0; node < trusted.Length; node++)
        {
            if (!outliers[node])
                continue;
            Replace(state, node, trusted, byMedian);
            state.Flags[node] |= VectorFlags.OutlierReplaced;
        }
    }

    private static (bool[] Trusted, bool[] Outliers) Judge(NodeState state, double threshold, double noise)
    {
        bool[] trusted = new bool[state.Grid.Count];
        for (int node = 0; node < trusted.Length; node++)
            trusted[node] = state.Flags[node] == VectorFlags.None;
        bool[] outliers = VectorValidation.FindOutliers(state.Grid, state.U, state.V, trusted, threshold, noise);
        for (int node = 0; node < trusted.Length; node++)
            trusted[node] &= !outliers[node];
        return (trusted, outliers);
    }

    private static void Replace(NodeState state, int node, bool[] trusted, bool byMedian)
    {
        bool known = VectorValidation.TryNeighbourMedian(state.Grid, node, state.U, state.V, trusted, out (float U, float V) median) && byMedian;
        state.U[node] = known ? median.U : float.NaN;
        state.V[node] = known ? median.V : float.NaN;
    }
}
