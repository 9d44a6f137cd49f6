using System.Globalization;
using System.Text;
using BosFlow.Benchmarks.Reporting;

namespace BosFlow.Benchmarks.Density;

/// <summary>Solvers between gradients and density, as a report.</summary>
internal static class DensityMeasurement
{
    private const int Draws = 100;

    public static void Run(MeasurementOptions options)
    {
        StringBuilder text = new();
        text.Append(CultureInfo.InvariantCulture, $"""
            # Integration and Abel inversion

            Made by `dotnet run -c Release --project tests/BosFlow.Benchmarks -- density --rounds {options.Rounds}` on {MachineDescription.Line()}.

            ## Weighted least-squares integration

            All solvers get the same normal equations, in the same run: sigmas vary by node, the left edge is known, and on the smaller grid the gradient carries
            noise, so that the equations contradict each other. Times are medians of {options.Rounds} rounds (of one for MathNet), in seconds; they depend on the machine and what else it
            does, processor time (of all threads, with the compiler's) less so. BosFlow's hold everything from the gradients to the checked values; the others' only the solution of the finished matrix. "Difference" is the largest one at a node over the range of values: to BosFlow's values on the smaller
            grid, to the exact values of a quadratic on the larger one, which the general-purpose solvers would not finish in a minute or in memory.
            The iterative ones stop at a relative residual of 1e-10.

            {MarkdownTable.Of(SolverComparison.Header, SolverComparison.Rows(options.Rounds))}
            ## Abel inversion

            Errors in percent of the profile's peak. "Three-point" and "onion peeling" start from the projection, the others from its slope; a noise of 1 % is that share of the peak of the data
            that a method starts from, {Draws} seeded draws. "Summed, three-point" sums the slope to a projection first. The fits are the penalised spline; the one by maximum likelihood
            is the default. Profiles with an edge (top-hat, sqrt(1 - r^2)) are beyond every method at the edge: its slope is infinite there, and the sample on it is taken as 0.

            """);
        foreach (int nodes in (int[])[101, 21, 11])
        {
            Console.Error.WriteLine($"Abel, {nodes} nodes");
            text.Append(CultureInfo.InvariantCulture, $"\n### {nodes - 1} cells a radius, no noise: largest error, %\n\n{MarkdownTable.Of(AbelComparison.Header, AbelComparison.Rows(nodes, 0, 1))}");
            text.Append(CultureInfo.InvariantCulture, $"\n### {nodes - 1} cells a radius, 1 % noise: RMS error, %\n\n{MarkdownTable.Of(AbelComparison.Header, AbelComparison.Rows(nodes, 0.01, Draws))}");
        }

        ReportFile.Write(options.Output, text.ToString());
    }
}
