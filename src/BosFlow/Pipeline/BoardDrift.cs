using BosFlow.Displacement;

namespace BosFlow.Pipeline;

/// <summary>How the background lies at any time against the reference, from fields measured in several stretches of flow-off frames. Safe to call from several threads.</summary>
/// <remarks>
/// Between the two stretches around a frame's time the drift is taken to grow in proportion to time; before the first and after the last it stays. A frame less its drift is a frame
/// against the mean of both references, weighted by time: with the shares a_i of stretches of n_i frames its variance is that against one reference of n_0 frames times
/// (1 + sum a_i^2 / n_i) / (1 + 1 / n_0) (derived here, pictures of equal noise).
/// </remarks>
internal sealed class BoardDrift
{
    private readonly IReadOnlyList<DriftStretch> stretches;
    private readonly int referenceFrames;

    /// <summary>Puts stretches in the order of their time.</summary>
    /// <param name="stretches">At least one, the reference itself among them with a field of zeros.</param>
    /// <param name="referenceFrames">Number of frames in the reference.</param>
    public BoardDrift(IEnumerable<DriftStretch> stretches, int referenceFrames)
    {
        this.stretches = [.. stretches.OrderBy(stretch => stretch.Time)];
        this.referenceFrames = referenceFrames;
    }

    /// <summary>Takes the drift at a time out of a field; where it was not measured, the vector takes over its flags and has no value.</summary>
    /// <param name="total">Total displacements, px.</param>
    /// <param name="time">Time of the frame, as the stretches have it.</param>
    public VectorField TakeOut(VectorField total, double time)
    {
        (DriftStretch before, DriftStretch after, double share) = Around(time);
        int count = total.U.Length;
        float[] u = new float[count];
        float[] v = new float[count];
        float[] sigmaU = new float[count];
        float[] sigmaV = new float[count];
        VectorFlags[] flags = [.. total.Flags];
        double shares = ((1 - share) * (1 - share) / before.FrameCount) + (share * share / after.FrameCount);
        float widening = (float)Math.Sqrt((1 + shares) / (1 + (1.0 / referenceFrames)));
        for (int node = 0; node < count; node++)
        {
            flags[node] |= (share < 1 ? before.FlagAt(node) : VectorFlags.None) | (share > 0 ? after.FlagAt(node) : VectorFlags.None);
            bool isKnown = flags[node] == total.Flags[node];
            u[node] = isKnown ? total.U[node] - (float)Mix(before.Field?.U[node], after.Field?.U[node], share) : float.NaN;
            v[node] = isKnown ? total.V[node] - (float)Mix(before.Field?.V[node], after.Field?.V[node], share) : float.NaN;
            sigmaU[node] = isKnown ? widening * total.SigmaU[node] : float.NaN;
            sigmaV[node] = isKnown ? widening * total.SigmaV[node] : float.NaN;
        }

        return new VectorField { Grid = total.Grid, U = u, V = v, SigmaU = sigmaU, SigmaV = sigmaV, Flags = flags, Correlation = total.Correlation, PeakRatio = total.PeakRatio, WindowSide = total.WindowSide, ShapeOrder = total.ShapeOrder };
    }

    private (DriftStretch Before, DriftStretch After, double Share) Around(double time)
    {
        int next = 0;
        while (next < stretches.Count && stretches[next].Time <= time)
            next++;
        if (next == 0 || next == stretches.Count)
            return (stretches[Math.Max(0, next - 1)], stretches[Math.Max(0, next - 1)], 0);
        (DriftStretch before, DriftStretch after) = (stretches[next - 1], stretches[next]);
        return (before, after, (time - before.Time) / (after.Time - before.Time));
    }

    // An unmeasured place of a stretch that has no share must not spoil the other's.
    private static double Mix(float? before, float? after, double share) =>
        (share < 1 ? (1 - share) * (before ?? 0) : 0) + (share > 0 ? share * (after ?? 0) : 0);
}
