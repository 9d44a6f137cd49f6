using BosFlow.Numerics.Integration;
using CsCheck;

namespace BosFlow.Numerics.Tests.Integration;

public sealed class GradientIntegratorTests
{
    [Fact]
    public void Solve_SmoothField_IsRecoveredToFourthOrder()
    {
        double Worst(int scale)
        {
            // The same field on a grid 'scale' times as fine, inner nodes only: the edge has the trapezium's error.
            int columns = 24 * scale, rows = 20 * scale;
            double step = 6.0 / columns;
            GradientProblem problem = TestProblems.Smooth(columns, rows) with { Spacing = step, Known = [.. Enumerable.Range(0, columns * rows).Select(Known)] };
            double Known(int i)
            {
                (int y, int x) = Math.DivRem(i, columns);
                return x < 2 || y < 2 || x >= columns - 2 || y >= rows - 2 ? Math.Sin(x * step) * Math.Cos(y * step) : double.NaN;
            }

            for (int i = 0; i < columns * rows; i++)
            {
                (int y, int x) = Math.DivRem(i, columns);
                problem.GradientX[i] = Math.Cos(x * step) * Math.Cos(y * step);
                problem.GradientY[i] = -Math.Sin(x * step) * Math.Sin(y * step);
            }

            double[] values = TestProblems.Solve(problem).Values;
            return values.Select((value, i) => Math.Abs(value - (Math.Sin(i % columns * step) * Math.Cos(i / columns * step)))).Max();
        }

        double order = Math.Log2(Worst(1) / Worst(2));

        Assert.InRange(order, 3.8, 4.3);
    }

    [Fact]
    public void Solve_AnyMaskAndWeights_AgreesWithDenseLeastSquares() =>
        Gen.Int[0, 100_000].Sample(
            seed =>
            {
                Random random = new(seed);
                (int columns, int rows) = (random.Next(2, 9), random.Next(2, 9));
                GradientProblem problem = TestProblems.Smooth(columns, rows, sigmaRatio: 1000).WithNoise(seed);
                for (int k = 0; k < columns * rows / 6; k++)
                    problem.GradientX[random.Next(columns * rows)] = double.NaN;
                if (seed % 2 == 0)
                    problem.Known[random.Next(columns * rows)] = 0.4;
                IntegrationResult result = TestProblems.Solve(problem);
                if (result.IsAnchored.Length > 1 || result.Part.Contains(-1))
                    return;

                double[] expected = new DenseIntegration(problem).Solve();

                for (int i = 0; i < expected.Length; i++)
                    Assert.Equal(expected[i], result.Values[i], 1e-6);
            },
            iter: 60);
}
