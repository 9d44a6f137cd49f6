using System.Numerics;

namespace BosFlow.Registration;

/// <summary>The usable vectors of one fit as scaled point pairs, with their weights brought to a mean of 1.</summary>
internal sealed class MotionVectors
{
    private MotionVectors(PointScaling scaling, double[] x, double[] y, double[] targetX, double[] targetY, double[] weight)
    {
        Scaling = scaling;
        X = x;
        Y = y;
        TargetX = targetX;
        TargetY = targetY;
        Weight = weight;
    }

    public PointScaling Scaling { get; }

    public double[] X { get; }

    public double[] Y { get; }

    public double[] TargetX { get; }

    public double[] TargetY { get; }

    public double[] Weight { get; }

    public int Count => X.Length;

    /// <summary>Leaves out what is not finite or has no weight, then scales.</summary>
    public static MotionVectors Of(ReadOnlySpan<double> x, ReadOnlySpan<double> y, ReadOnlySpan<double> u, ReadOnlySpan<double> v, ReadOnlySpan<double> weights)
    {
        var kept = new List<int>(x.Length);
        for (int i = 0; i < x.Length; i++)
        {
            bool finite = double.IsFinite(x[i]) && double.IsFinite(y[i]) && double.IsFinite(u[i]) && double.IsFinite(v[i]);
            if (finite && (weights.IsEmpty || (double.IsFinite(weights[i]) && weights[i] > 0)))
                kept.Add(i);
        }

        double[] keptX = Pick(x, kept);
        double[] keptY = Pick(y, kept);
        double[] weight = weights.IsEmpty ? Ones(kept.Count) : Pick(weights, kept);
        double mean = weight.Length == 0 ? 1 : weight.Average();
        PointScaling scaling = kept.Count == 0 ? new PointScaling(0, 0, 1) : PointScaling.Of(keptX, keptY);
        double[] targetX = new double[kept.Count];
        double[] targetY = new double[kept.Count];
        for (int i = 0; i < kept.Count; i++)
        {
            targetX[i] = scaling.X(keptX[i] + u[kept[i]]);
            targetY[i] = scaling.Y(keptY[i] + v[kept[i]]);
            keptX[i] = scaling.X(keptX[i]);
            keptY[i] = scaling.Y(keptY[i]);
            weight[i] /= mean;
        }

        return new MotionVectors(scaling, keptX, keptY, targetX, targetY, weight);
    }

    /// <summary>Some of the vectors, for a sample of a consensus search.</summary>
    public MotionVectors Subset(ReadOnlySpan<int> indices)
    {
        int[] chosen = indices.ToArray();
        return new MotionVectors(Scaling, Pick(X, chosen), Pick(Y, chosen), Pick(TargetX, chosen), Pick(TargetY, chosen), Pick(Weight, chosen));
    }

    /// <summary>Weighted squared distance of every vector from a motion, in scaled units.</summary>
    public void SquaredResiduals(ReadOnlySpan<double> h, Span<double> squares)
    {
        int i = 0;
        for (; i + Vector<double>.Count <= Count; i += Vector<double>.Count)
        {
            Vector<double> x = new(X, i), y = new(Y, i);
            Vector<double> w = (x * h[6]) + (y * h[7]) + new Vector<double>(h[8]);
            Vector<double> ru = new Vector<double>(TargetX, i) - (((x * h[0]) + (y * h[1]) + new Vector<double>(h[2])) / w);
            Vector<double> rv = new Vector<double>(TargetY, i) - (((x * h[3]) + (y * h[4]) + new Vector<double>(h[5])) / w);
            (new Vector<double>(Weight, i) * ((ru * ru) + (rv * rv))).CopyTo(squares[i..]);
        }

        for (; i < Count; i++)
        {
            (double mappedX, double mappedY) = MotionParameters.Map(h, X[i], Y[i]);
            double ru = TargetX[i] - mappedX;
            double rv = TargetY[i] - mappedY;
            squares[i] = Weight[i] * ((ru * ru) + (rv * rv));
        }
    }

    private static double[] Pick(ReadOnlySpan<double> values, IReadOnlyList<int> indices)
    {
        double[] picked = new double[indices.Count];
        for (int i = 0; i < picked.Length; i++)
            picked[i] = values[indices[i]];
        return picked;
    }

    private static double[] Ones(int count)
    {
        double[] ones = new double[count];
        Array.Fill(ones, 1);
        return ones;
    }
}
