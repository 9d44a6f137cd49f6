using System.Numerics;
using System.Runtime.InteropServices;

namespace BosFlow.Displacement;

/// <summary>Puts the result of one window into the state of the frame.</summary>
internal static class RefinementResult
{
    // The linear step is valid within about one pixel; a longer one is cut and tried again in the next pass.
    private const double LongestStep = 1;

    // A last step longer than this has not come to rest.
    private const double RestingStep = 0.5;

    /// <summary>Windows that <see cref="TryStore"/> takes at most.</summary>
    public static int SideBySide => Vector<float>.Count;

    /// <summary>Puts the results of neighbouring windows into the state, if all of them are plain measurements that have come to rest; else nothing, and each is for <see cref="Store"/>.</summary>
    /// <param name="state">State of the frame.</param>
    /// <param name="node">First node.</param>
    /// <param name="count">Nodes.</param>
    /// <param name="predictor">With which the frame was deformed.</param>
    /// <param name="reference">What the reference says of each node.</param>
    /// <param name="matches">Results of the row.</param>
    /// <param name="column">Place of the first node in them.</param>
    public static bool TryStore(NodeState state, int node, int count, PredictorField predictor, VectorFlags[] reference, MatchedRow matches, int column)
    {
        if (count != SideBySide || MemoryMarshal.AsBytes(reference.AsSpan(node, count)).ContainsAnyExcept((byte)0))
            return false;
        Vector<float> du = new(matches.Du, column), dv = new(matches.Dv, column), resting = new((float)RestingStep);
        // A window without a solution is NaN, which is not less.
        if (!Vector.LessThanOrEqualAll(Vector.Abs(du), resting) || !Vector.LessThanOrEqualAll(Vector.Abs(dv), resting))
            return false;
        (Vector<float> u, Vector<float> v) = predictor.AtNodes(node);
        (u - new Vector<float>(state.MotionU, node) + du).CopyTo(state.U, node);
        (v - new Vector<float>(state.MotionV, node) + dv).CopyTo(state.V, node);
        new Vector<float>(matches.SigmaU, column).CopyTo(state.SigmaU, node);
        new Vector<float>(matches.SigmaV, column).CopyTo(state.SigmaV, node);
        new Vector<float>(matches.Correlation, column).CopyTo(state.Correlation, node);
        state.Flags.AsSpan(node, count).Clear();
        return true;
    }

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
