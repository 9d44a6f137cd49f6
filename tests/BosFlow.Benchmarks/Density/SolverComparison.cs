using System.Diagnostics;
using System.Globalization;
using BosFlow.Benchmarks.Reporting;
using BosFlow.Numerics.Integration;

namespace BosFlow.Benchmarks.Density;

/// <summary>The integration beside general-purpose solvers on the same equations.</summary>
internal static class SolverComparison
{
    public static IReadOnlyList<string> Header => ["solver", "grid", "seconds", "processor seconds", "difference"];

    /// <summary>A row a solver and grid.</summary>
    public static IEnumerable<IReadOnlyList<string>> Rows(int rounds)
    {
        foreach ((int columns, int height) in ((int, int)[])[(480, 270), (1920, 1080)])
        {
            // The general-purpose solvers get the smaller grid; on the larger one the exact answer is known instead.
            bool exact = columns > 1000;
            SolverScene scene = new(columns, height, exact);
            string grid = string.Create(CultureInfo.InvariantCulture, $"{columns} x {height}");
            SolverResult[] own = [.. new[] { 1, 2 }.Select(threads => Own(scene, threads, rounds))];
            double[] expected = own[0].Solution;
            double range = expected.Max() - expected.Min();
            foreach (SolverResult result in own)
                yield return Row(result, grid, exact ? Difference(result.Solution, scene.Unknowns(scene.Truth)) / range : double.NaN);
            if (exact)
                continue;
            Console.Error.WriteLine("SciPy and MathNet");
            foreach (SolverResult result in (SolverResult[])[SciPySolver.Run(scene, "spsolve", rounds), SciPySolver.Run(scene, "cg", rounds), MathNetSolver.Run(scene, 1)])
                yield return Row(result, grid, Difference(result.Solution, expected) / range);
        }
    }

    private static SolverResult Own(SolverScene scene, int threads, int rounds)
    {
        double[] seconds = new double[rounds], processor = new double[rounds];
        IntegrationResult? result = null;
        // Round -1 and -2 warm up the compiler and are not counted.
        for (int round = -2; round < rounds; round++)
        {
            TimeSpan before = Environment.CpuUsage.TotalTime;
            long begin = Stopwatch.GetTimestamp();
            result = GradientIntegrator.Prepare(scene.Problem, new IntegrationOptions { Threads = threads }, CancellationToken.None).Solve(CancellationToken.None);
            if (round < 0)
                continue;
            seconds[round] = Stopwatch.GetElapsedTime(begin).TotalSeconds;
            processor[round] = (Environment.CpuUsage.TotalTime - before).TotalSeconds;
        }

        string name = string.Create(CultureInfo.InvariantCulture, $"BosFlow, {threads} {(threads == 1 ? "thread" : "threads")}, {result!.Iterations} iterations, set-up and data check included");
        return new SolverResult(name, Median.Of(seconds), Median.Of(processor), scene.Unknowns(result.Values));
    }

    private static double Difference(double[] a, double[] b) => a.Zip(b, (left, right) => Math.Abs(left - right)).Max();

    private static string[] Row(SolverResult result, string grid, double difference) =>
    [
        result.Name,
        grid,
        result.Seconds.ToString("0.000", CultureInfo.InvariantCulture),
        double.IsNaN(result.ProcessorSeconds) ? "-" : result.ProcessorSeconds.ToString("0.000", CultureInfo.InvariantCulture),
        double.IsNaN(difference) ? "-" : difference.ToString("0.0e0", CultureInfo.InvariantCulture),
    ];
}
