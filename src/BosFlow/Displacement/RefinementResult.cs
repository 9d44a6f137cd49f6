namespace BosFlow.Displacement;

/// <summary>Puts the result of one window into the state of the frame.</summary>
internal static class RefinementResult
{
    // The linear step is valid within about one pixel; a longer one is cut and tried again in the next pass.
    private const double LongestStep = 1;

    // A last step longer than this has not come to rest.
    private const double RestingStep = 0.5;

    public static void Store(NodeState state, int node, PredictorField predictor, VectorFlags failure, MatchedWindow match)
    {
        if (failure != VectorFlags.None)
        {
            state.Drop(node, failure);
            return;
        }

        (float u, float v) = predictor.AtNode(node);
        double du = Math.Clamp(match.Du, -LongestStep, LongestStep), dv = Math.Clamp(match.Dv, -LongestStep, LongestStep);
        state.U[node] = (float)(u - state.MotionU[node] + du);
        state.V[node] = (float)(v - state.MotionV[node] + dv);
        state.SigmaU[node] = (float)match.SigmaU;
        state.SigmaV[node] = (float)match.SigmaV;
        state.Correlation[node] = (float)match.Correlation;
        if (Math.Max(Math.Abs(du), Math.Abs(dv)) > RestingStep)
            state.Flags[node] |= VectorFlags.NotConverged;
    }
}
