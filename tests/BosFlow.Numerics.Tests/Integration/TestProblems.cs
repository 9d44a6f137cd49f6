using BosFlow.Numerics.Integration;

namespace BosFlow.Numerics.Tests.Integration;

/// <summary>Gradient problems with a known answer.</summary>
internal static class TestProblems
{
    public const double Spacing = 0.7;

    /// <summary>A smooth field of range about 2, a few waves over the grid.</summary>
    public static double Value(int x, int y) => Math.Sin(0.11 * x) * Math.Cos((0.09 * y) + 0.3);

    /// <summary>The smooth field's exact gradient, with sigmas that vary from 0.01 to 0.01 * sigmaRatio, seeded.</summary>
    public static GradientProblem Smooth(int columns, int rows, Func<int, int, bool>? inDomain = null, Func<int, int, bool>? isKnown = null, double sigmaRatio = 1)
    {
        Random random = new(7);
        int n = columns * rows;
        double[] gradientX = new double[n], gradientY = new double[n], sigmaX = new double[n], sigmaY = new double[n], known = new double[n];
        bool[] domain = new bool[n];
        for (int i = 0; i < n; i++)
        {
            (int y, int x) = Math.DivRem(i, columns);
            gradientX[i] = 0.11 * Math.Cos(0.11 * x) * Math.Cos((0.09 * y) + 0.3) / Spacing;
            gradientY[i] = -0.09 * Math.Sin(0.11 * x) * Math.Sin((0.09 * y) + 0.3) / Spacing;
            sigmaX[i] = 0.01 * Math.Pow(sigmaRatio, random.NextDouble());
            sigmaY[i] = 0.01 * Math.Pow(sigmaRatio, random.NextDouble());
            domain[i] = inDomain?.Invoke(x, y) ?? true;
            known[i] = isKnown?.Invoke(x, y) == true ? Value(x, y) : double.NaN;
        }

        return new GradientProblem
        {
            Columns = columns,
            Rows = rows,
            Spacing = Spacing,
            GradientX = gradientX,
            GradientY = gradientY,
            SigmaX = sigmaX,
            SigmaY = sigmaY,
            Domain = domain,
            Known = known,
        };
    }

    /// <summary>Replaces the gradient by seeded noise, so that nothing about it is smooth.</summary>
    public static GradientProblem WithNoise(this GradientProblem problem, int seed)
    {
        Random random = new(seed);
        return problem with
        {
            GradientX = [.. problem.GradientX.Select(value => double.IsNaN(value) ? value : value + random.NextDouble() - 0.5)],
            GradientY = [.. problem.GradientY.Select(value => double.IsNaN(value) ? value : value + random.NextDouble() - 0.5)],
        };
    }

    public static IntegrationResult Solve(GradientProblem problem, int threads = 1) => Prepare(problem, threads).Solve(CancellationToken.None);

    public static GradientIntegrator Prepare(GradientProblem problem, int threads = 1) =>
        GradientIntegrator.Prepare(problem, new IntegrationOptions { Threads = threads }, CancellationToken.None);
}
