using System.Numerics;

namespace BosFlow.Numerics.Integration;

/// <summary>One multigrid cycle as the preconditioner of a solve, with its own planes.</summary>
/// <remarks>
/// Two Jacobi steps with Chebyshev's weights before and after the coarse correction; below the first coarse level the correction comes from
/// up to two steps of a flexible conjugate gradient method, each preconditioned by the next cycle (K-cycle: Y. Notay and P. S. Vassilevski 2008,
/// Numer. Linear Algebra Appl. 15, 473, doi 10.1002/nla.542; from memory).
/// </remarks>
internal sealed class Cycle
{
    /// <summary>The second inner step is left out where the first took the residual below this share.</summary>
    private const double GoodEnough = 0.25;

    /// <summary>Steps of a working preconditioner are near 1.</summary>
    private const double LongestStep = 10;

    // Inverse roots of Chebyshev's polynomial on the part of the spectrum (0 .. 2] of the scaled matrix that the coarse level misses.
    private const double SpectrumFrom = 0.3;
    private const double SpectrumTo = 2;
    private static readonly float OmegaOne = (float)(1 / (((SpectrumTo + SpectrumFrom) / 2) + ((SpectrumTo - SpectrumFrom) / 2 * Math.Sqrt(0.5))));
    private static readonly float OmegaTwo = (float)(1 / (((SpectrumTo + SpectrumFrom) / 2) - ((SpectrumTo - SpectrumFrom) / 2 * Math.Sqrt(0.5))));

    private readonly IReadOnlyList<ILevel> levels;
    private readonly Bands bands;
    private readonly Planes[] planes;

    public Cycle(Hierarchy hierarchy, Bands bands)
    {
        levels = hierarchy.Levels;
        this.bands = bands;
        planes = [.. levels.Select(level => new Planes(level))];
    }

    /// <summary>Right-hand side of the finest level, padded; the caller fills it.</summary>
    public float[] Input => planes[0].Right;

    /// <summary>The cycle's answer on the finest level, padded.</summary>
    public float[] Output => planes[0].Solution;

    /// <summary>Solves approximately for <see cref="Input"/> into <see cref="Output"/>.</summary>
    public void Run() => Run(0);

    private void Run(int depth)
    {
        ILevel level = levels[depth];
        Planes own = planes[depth];
        int pad = level.Pad;
        bands.Run(level.Nodes, (from, to) =>
        {
            for (int i = from + pad; i < to + pad; i++)
                own.Work[i] = OmegaOne * level.Scale[i] * own.Right[i];
        });
        bands.Run(level.Nodes, (from, to) => level.Smooth(own.Work, own.Right, OmegaTwo, own.Solution, from, to));
        if (level.Next is not Aggregates next || depth + 1 == levels.Count)
            return;

        bands.Run(level.Nodes, (from, to) => level.Residual(own.Solution, own.Right, own.Work, from, to));
        Planes coarse = planes[depth + 1];
        bands.Run(next.Count, (from, to) => next.Restrict(own.Work, pad, coarse.Right, levels[depth + 1].Pad, from, to));
        float[] correction = depth + 2 == levels.Count ? Once(depth + 1) : Twice(depth + 1);
        bands.Run(level.Nodes, (from, to) => next.Prolong(correction, levels[depth + 1].Pad, own.Solution, pad, from, to));
        bands.Run(level.Nodes, (from, to) => level.Smooth(own.Solution, own.Right, OmegaTwo, own.Work, from, to));
        bands.Run(level.Nodes, (from, to) => level.Smooth(own.Work, own.Right, OmegaOne, own.Solution, from, to));
    }

    private float[] Once(int depth)
    {
        Run(depth);
        return planes[depth].Solution;
    }

    private float[] Twice(int depth)
    {
        ILevel level = levels[depth];
        Planes own = planes[depth];
        (int n, int pad) = (level.Nodes, level.Pad);
        Run(depth);
        (own.First, own.Solution) = (own.Solution, own.First);
        (double energy, double right, double before) = bands.Sum(n, (from, to) =>
        {
            level.Multiply(own.First, own.FirstProduct, from, to);
            return (Dot(own.First, own.FirstProduct, from + pad, to + pad), Dot(own.First, own.Right, from + pad, to + pad), Dot(own.Right, own.Right, from + pad, to + pad));
        });
        // Nothing left to correct, or little more than a constant in a part without known value: rounding gives such parts a residual that does not
        // sum to 0, and a step along the constant would be huge.
        if (!(energy * LongestStep > Math.Abs(right)))
            return own.First;
        double step = right / energy;
        double after = bands.Sum(n, (from, to) =>
        {
            AddScaled(own.Right, own.FirstProduct, (float)-step, from + pad, to + pad);
            return (Dot(own.Right, own.Right, from + pad, to + pad), 0, 0);
        }).A;
        if (after <= GoodEnough * GoodEnough * before)
        {
            bands.Run(n, (from, to) => Combine(own.First, (float)step, own.Solution, 0, from + pad, to + pad));
            return own.First;
        }

        Run(depth);
        float[] second = own.Solution;
        (double mixed, double secondRight, double secondEnergy) = bands.Sum(n, (from, to) =>
        {
            level.Multiply(second, own.Work, from, to);
            return (Dot(second, own.FirstProduct, from + pad, to + pad), Dot(second, own.Right, from + pad, to + pad), Dot(second, own.Work, from + pad, to + pad));
        });
        double rest = secondEnergy - (mixed * mixed / energy);
        double secondStep = rest * LongestStep > Math.Abs(secondRight) ? secondRight / rest : 0;
        double firstStep = step - (mixed * secondStep / energy);
        bands.Run(n, (from, to) => Combine(own.First, (float)firstStep, second, (float)secondStep, from + pad, to + pad));
        return own.First;
    }

    // Two lanes of double sums for each vector of floats; the order is fixed by the band, which is fixed by the level's size.
    private static double Dot(float[] a, float[] b, int from, int to)
    {
        Vector<double> low = Vector<double>.Zero, high = Vector<double>.Zero;
        int i = from;
        for (; i + Vector<float>.Count <= to; i += Vector<float>.Count)
        {
            Vector.Widen(Vector.LoadUnsafe(ref a[i]), out Vector<double> lowA, out Vector<double> highA);
            Vector.Widen(Vector.LoadUnsafe(ref b[i]), out Vector<double> lowB, out Vector<double> highB);
            low += lowA * lowB;
            high += highA * highB;
        }

        double sum = Vector.Sum(low + high);
        for (; i < to; i++)
            sum += (double)a[i] * b[i];
        return sum;
    }

    private static void AddScaled(float[] target, float[] source, float factor, int from, int to)
    {
        for (int i = from; i < to; i++)
            target[i] += factor * source[i];
    }

    private static void Combine(float[] first, float firstFactor, float[] second, float secondFactor, int from, int to)
    {
        for (int i = from; i < to; i++)
            first[i] = (firstFactor * first[i]) + (secondFactor * second[i]);
    }

    private sealed class Planes(ILevel level)
    {
        public float[] Right { get; } = level.NewPlane();

        public float[] Solution { get; set; } = level.NewPlane();

        public float[] Work { get; } = level.NewPlane();

        public float[] First { get; set; } = level.NewPlane();

        public float[] FirstProduct { get; } = level.NewPlane();
    }
}
