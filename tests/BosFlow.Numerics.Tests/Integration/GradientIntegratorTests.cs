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

    [Theory]
    [InlineData("rectangle")]
    [InlineData("disc with a hole")]
    [InlineData("labyrinth")]
    [InlineData("spiral")]
    [InlineData("crumbs")]
    public void Solve_DomainsOfManyShapes_ConvergeInFewIterations(string shape)
    {
        const int Columns = 160, Rows = 120;
        Random random = new(3);
        bool[] crumbs = [.. Enumerable.Range(0, Columns * Rows).Select(_ => random.NextDouble() > 0.3)];
        bool Inside(int x, int y) => shape switch
        {
            "disc with a hole" => double.Hypot(x - 80, y - 60) is > 11 and < 58,
            "labyrinth" => y % 2 == 0 || x == (y / 2 % 2 == 0 ? Columns - 1 : 0),
            "spiral" => Ring(x, y) % 4 != 3 || (x == 80 + (Ring(x, y) / 4 % 2 == 0 ? 10 : -10) && y < 60),
            "crumbs" => crumbs[(y * Columns) + x],
            _ => true,
        };
        static int Ring(int x, int y) => Math.Min(Math.Min(x, Columns - 1 - x), Math.Min(y, Rows - 1 - y));
        GradientProblem problem = TestProblems.Smooth(Columns, Rows, Inside, sigmaRatio: 30);

        IntegrationResult result = TestProblems.Solve(problem, 2);

        Assert.InRange(result.Iterations, 1, 80);
        // Every part equals the smooth field up to its constant; what is left is the trapezium's error along edges, 5e-4 a step at most, times the path.
        for (int part = 0; part < result.IsAnchored.Length; part++)
        {
            (int Node, double Error)[] errors = [.. Enumerable.Range(0, Columns * Rows).Where(i => result.Part[i] == part).Select(i => (i, result.Values[i] - TestProblems.Value(i % Columns, i / Columns)))];
            Assert.False(result.IsAnchored[part]);
            Assert.InRange(errors.Max(error => error.Error) - errors.Min(error => error.Error), 0, 0.01);
        }

        Assert.Equal(problem.Domain.Select((inside, i) => inside && result.Part[i] >= 0), result.Values.Select(value => !double.IsNaN(value)));
    }

    [Fact]
    public void Solve_AnyNumberOfThreads_GivesTheSameBytes()
    {
        GradientProblem problem = TestProblems.Smooth(190, 140, (x, y) => double.Hypot(x - 90, y - 70) > 20, (x, y) => x == 0, 30).WithNoise(4);
        GradientErrors errors = new() { CorrelationAlongX = [1, 0.5], CorrelationAlongY = [1, 0.5] };

        IntegrationResult one = TestProblems.Solve(problem, 1), three = TestProblems.Solve(problem, 3);

        Assert.Equal(one.Values, three.Values);
        Assert.Equal(one.NormalisedResidual, three.NormalisedResidual);
        Assert.Equal(
            TestProblems.Prepare(problem, 1).Sigma(errors, 3, 1, CancellationToken.None).Sigma,
            TestProblems.Prepare(problem, 3).Sigma(errors, 3, 1, CancellationToken.None).Sigma);
    }

    [Fact]
    public void Solve_TwoPartsOneKnown_SaysWhichIsAnchored()
    {
        // A wall at x = 10; the right part holds known values. One node is walled in alone.
        GradientProblem problem = TestProblems.Smooth(30, 20, (x, y) => x != 10 && !(Math.Abs(x - 20) + Math.Abs(y - 10) == 1), (x, y) => x == 29);

        IntegrationResult result = TestProblems.Solve(problem);

        Assert.Equal([false, true], result.IsAnchored);
        Assert.Equal(0, result.Part[0]);
        Assert.Equal(1, result.Part[11]);
        Assert.Equal(-1, result.Part[10]);
        int alone = (10 * 30) + 20;
        Assert.Equal(-1, result.Part[alone]);
        Assert.True(double.IsNaN(result.Values[alone]) && double.IsNaN(result.Values[10]));
        Assert.Equal(TestProblems.Value(15, 3), result.Values[(3 * 30) + 15], 3e-3);
        Assert.Equal(TestProblems.Value(29, 3), result.Values[(3 * 30) + 29]);
    }

    [Fact]
    public void Solve_KnownNodeWithoutNeighbours_KeepsItsValue()
    {
        GradientProblem problem = TestProblems.Smooth(5, 1, (x, y) => x != 3, (x, y) => x == 4);

        IntegrationResult result = TestProblems.Solve(problem);

        Assert.Equal(TestProblems.Value(4, 0), result.Values[4]);
        Assert.Equal([false, true], result.IsAnchored);
    }

    [Fact]
    public void Solve_GradientMissingInPlaces_UsesWhatIsThere()
    {
        GradientProblem problem = TestProblems.Smooth(40, 30, isKnown: (x, y) => x == 0);
        for (int y = 8; y < 14; y++)
        {
            for (int x = 15; x < 22; x++)
                problem.GradientX[(y * 40) + x] = problem.GradientY[(y * 40) + x] = double.NaN;
        }

        IntegrationResult result = TestProblems.Solve(problem);

        // The inside of the gap has no equation; its rim has one-sided ones.
        Assert.True(double.IsNaN(result.Values[(10 * 40) + 18]));
        Assert.Equal(TestProblems.Value(15, 8), result.Values[(8 * 40) + 15], 0.01);
        Assert.Equal(TestProblems.Value(39, 29), result.Values[(29 * 40) + 39], 3e-3);
    }

    [Fact]
    public void ResidualRms_TrueGradientPlusCurl_ShowsTheCurlWhereItIs()
    {
        GradientProblem clean = TestProblems.Smooth(60, 50);
        GradientProblem swirled = clean with { GradientX = [.. clean.GradientX], GradientY = [.. clean.GradientY] };
        for (int i = 0; i < 60 * 50; i++)
        {
            double dx = (i % 60) - 40, dy = (i / 60) - 20, strength = 0.5 * Math.Exp(-((dx * dx) + (dy * dy)) / 20);
            swirled.GradientX[i] -= strength * dy;
            swirled.GradientY[i] += strength * dx;
        }

        IntegrationResult result = TestProblems.Solve(swirled);

        Assert.True(TestProblems.Solve(clean).ResidualRms < 0.05);
        Assert.True(result.ResidualRms > 5);
        int worst = Array.IndexOf(result.NormalisedResidual, result.NormalisedResidual.Max());
        Assert.True(double.Hypot((worst % 60) - 40, (worst / 60) - 20) < 6);
        Assert.True(result.NormalisedResidual[(45 * 60) + 3] < 0.2 * result.ResidualRms);
    }

    [Fact]
    public void Solve_TooFewIterations_IsNotSilent()
    {
        GradientProblem problem = TestProblems.Smooth(100, 80).WithNoise(1);
        GradientIntegrator integrator = GradientIntegrator.Prepare(problem, new IntegrationOptions { MaximumIterations = 2 }, CancellationToken.None);

        NotConvergedException exception = Assert.Throws<NotConvergedException>(() => integrator.Solve(CancellationToken.None));

        Assert.Equal(2, exception.Iterations);
        Assert.InRange(exception.RelativeResidual, 1e-8, 1);
        Assert.Throws<NotConvergedException>(() => GradientIntegrator.Prepare(problem, new IntegrationOptions { MaximumIterations = 1 }, CancellationToken.None).Sigma(GradientErrors.Independent, 4, 1, CancellationToken.None));
    }

    [Fact]
    public void Solve_Cancelled_Stops()
    {
        using CancellationTokenSource source = new();
        GradientIntegrator integrator = TestProblems.Prepare(TestProblems.Smooth(40, 30).WithNoise(1), 2);
        source.Cancel();

        Assert.Throws<OperationCanceledException>(() => integrator.Solve(source.Token));
        Assert.ThrowsAny<OperationCanceledException>(() => integrator.Sigma(GradientErrors.Independent, 8, 1, source.Token));
    }

    [Fact]
    public void Prepare_BadInput_IsRefusedWithThePlace()
    {
        GradientProblem problem = TestProblems.Smooth(4, 3);
        string Message(GradientProblem bad) => Assert.Throws<ArgumentException>(() => TestProblems.Prepare(bad)).Message;

        Assert.Contains("row 0, column 0", Message(problem with { SigmaX = new double[12] }), StringComparison.Ordinal);
        Assert.Contains("12 nodes", Message(problem with { Known = [1] }), StringComparison.Ordinal);
        Assert.Contains("spacing", Message(problem with { Spacing = double.NaN }), StringComparison.Ordinal);
        Assert.Contains("cannot be a correlation", Assert.Throws<ArgumentException>(() => TestProblems.Prepare(problem).SigmaAt(1, new GradientErrors { CorrelationAlongX = [1, 0.9] }, CancellationToken.None)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Solve_OneNodeOrNothing_HasNoValue()
    {
        Assert.True(double.IsNaN(TestProblems.Solve(TestProblems.Smooth(1, 1)).Values[0]));
        Assert.Empty(TestProblems.Solve(TestProblems.Smooth(6, 5, (x, y) => false)).IsAnchored);
    }
}
