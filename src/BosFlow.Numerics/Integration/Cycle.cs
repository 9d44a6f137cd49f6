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
        bands.Run(next.Count, (from, to) => next.Restrict(own.Work, pad, coarse.Right, from, to));
        float[] correction = depth + 2 == levels.Count ? Once(depth + 1) : Twice(depth + 1);
        bands.Run(level.Nodes, (from, to) => next.Prolong(correction, own.Solution, pad, from, to));
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
        int n = level.Nodes;
        double before = Dot(own.Right, own.Right, n);
        if (before == 0)
        {
            Array.Clear(own.Solution);
            return own.Solution;
        }

        Run(depth);
        (own.First, own.Solution) = (own.Solution, own.First);
        bands.Run(n, (from, to) => level.Multiply(own.First, own.FirstProduct, from, to));
        double energy = Dot(own.First, own.FirstProduct, n);
        if (!(energy > 0))
            return own.First;
        double step = Dot(own.First, own.Right, n) / energy;
        AddScaled(own.Right, own.FirstProduct, -step, n);
        if (Dot(own.Right, own.Right, n) <= GoodEnough * GoodEnough * before)
        {
            Scale(own.First, step, n);
            return own.First;
        }

        Run(depth);
        float[] second = own.Solution;
        bands.Run(n, (from, to) => level.Multiply(second, own.Work, from, to));
        double mixed = Dot(second, own.FirstProduct, n), right = Dot(second, own.Right, n);
        double rest = Dot(second, own.Work, n) - (mixed * mixed / energy);
        double secondStep = rest > 0 ? right / rest : 0;
        double firstStep = step - (mixed * secondStep / energy);
        Scale(own.First, firstStep, n);
        AddScaled(own.First, second, secondStep, n);
        return own.First;
    }

    private double Dot(float[] a, float[] b, int n) => bands.Sum(n, (from, to) =>
    {
        double sum = 0;
        for (int i = from; i < to; i++)
            sum += (double)a[i] * b[i];
        return sum;
    });

    private void AddScaled(float[] target, float[] source, double factor, int n)
    {
        float single = (float)factor;
        bands.Run(n, (from, to) =>
        {
            for (int i = from; i < to; i++)
                target[i] += single * source[i];
        });
    }

    private void Scale(float[] target, double factor, int n)
    {
        float single = (float)factor;
        bands.Run(n, (from, to) =>
        {
            for (int i = from; i < to; i++)
                target[i] *= single;
        });
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
