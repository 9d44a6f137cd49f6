using BosFlow.Numerics.Robust;

namespace BosFlow.Registration;

/// <summary>
/// Least median of squares: of many motions through the fewest possible vectors, the one with the smallest median residual.
/// Holds while more than half of the vectors follow the motion. Source: Rousseeuw 1984, J. Am. Stat. Assoc. 79:871 (from memory).
/// </summary>
internal static class MotionConsensus
{
    // With 40 % wrong vectors a sample of four is right in 13 % of the draws: 200 draws all fail with probability 1e-12,
    // and leave tens of right samples to choose a well-spread one from.
    private const int Draws = 200;
    private const int MostScored = 512;
    private const int Seed = 20260;

    /// <summary>Finds the parameters; false where no sample determines them.</summary>
    public static bool Search(MotionParameters model, MotionVectors vectors, Span<double> best)
    {
        MotionVectors scored = Scored(vectors);
        var random = new Random(Seed);
        double[] squares = new double[scored.Count];
        int[] sample = new int[model.SampleSize];
        double[] p = new double[model.Count];
        Span<double> h = stackalloc double[9];
        double bestMedian = double.PositiveInfinity;
        for (int draw = 0; draw < Draws; draw++)
        {
            DrawSample(random, vectors.Count, sample);
            Array.Clear(p);
            if (!MotionLeastSquares.Solve(model, vectors.Subset(sample), [], p))
                continue;
            model.Matrix(p, h);
            scored.SquaredResiduals(h, squares);
            // The median is below the best one where more than half of the values are.
            if (Below(squares, bestMedian) <= squares.Length / 2)
                continue;
            bestMedian = Median(squares);
            p.CopyTo(best);
        }

        return double.IsFinite(bestMedian);
    }

    /// <summary>Lower median; NaN counts as the largest. Reorders the values.</summary>
    public static double Median(Span<double> values)
    {
        for (int i = 0; i < values.Length; i++)
        {
            if (double.IsNaN(values[i]))
                values[i] = double.PositiveInfinity;
        }

        return values.Length == 0 ? double.NaN : Selection.At(values, values.Length / 2);
    }

    private static int Below(ReadOnlySpan<double> values, double limit)
    {
        int below = 0;
        foreach (double value in values)
            below += value < limit ? 1 : 0;
        return below;
    }

    private static MotionVectors Scored(MotionVectors vectors)
    {
        if (vectors.Count <= MostScored)
            return vectors;
        int[] chosen = new int[MostScored];
        for (int i = 0; i < chosen.Length; i++)
            chosen[i] = (int)((long)i * vectors.Count / MostScored);
        return vectors.Subset(chosen);
    }

    private static void DrawSample(Random random, int count, int[] sample)
    {
        for (int i = 0; i < sample.Length; i++)
        {
            do
                sample[i] = random.Next(count);
            while (sample.AsSpan(0, i).Contains(sample[i]));
        }
    }
}
