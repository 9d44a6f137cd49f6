using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Pipeline;
using BosFlow.Registration;

namespace BosFlow.Tests.Pipeline;

public sealed class MotionErrorsTests
{
    private static readonly NodeGrid Grid = new(15.5, 15.5, 16, 30, 20);

    // The sides of the picture are free of flow, its middle is not.
    private static readonly int[] Nodes = [.. Enumerable.Range(0, Grid.Count).Where(node => node % Grid.Columns is < 8 or > 21)];

    [Theory]
    [InlineData(MotionModel.Similarity)]
    [InlineData(MotionModel.Shift)]
    public void Of_IndependentNoise_IsTheScatterOfFittedMotions(MotionModel model)
    {
        const double Noise = 0.01;
        const int Draws = 400;
        var random = new Random(4711);
        double[] x = [.. Nodes.Select(node => Grid.X(node % Grid.Columns))];
        double[] y = [.. Nodes.Select(node => Grid.Y(node / Grid.Columns))];
        BackgroundMotionErrors stated = MotionErrors.Of(model, Grid, Nodes, 1, Noise, 1, 0);

        double shift = 0;
        double scale = 0;
        for (int draw = 0; draw < Draws; draw++)
        {
            PlanarMotion fitted = MotionFit.Fit(model, x, y, Draw(random, x.Length, Noise), Draw(random, x.Length, Noise), []).Motion.Planar;
            (double u, _) = fitted.DisplacementAt(stated.CentreX, stated.CentreY);
            (double further, _) = fitted.DisplacementAt(stated.CentreX + 100, stated.CentreY);
            shift += u * u / Draws;
            scale += Math.Pow((further - u) / 100, 2) / Draws;
        }

        // The standard deviation of 400 draws scatters by 3.5 %; the robust weights of the fit cost some percent.
        Assert.InRange(Math.Sqrt(shift) / stated.ShiftSigmaPixels, 0.88, 1.15);
        if (model == MotionModel.Similarity)
            Assert.InRange(Math.Sqrt(scale) / stated.ScaleSigma, 0.88, 1.15);
        else
            Assert.Equal(0, stated.ScaleSigma);
    }

    [Fact]
    public void Of_ManyFrames_LeavesWhatTheyHaveInCommon()
    {
        BackgroundMotionErrors one = MotionErrors.Of(MotionModel.Similarity, Grid, Nodes, 4, 0.01, 1, 0.2);
        BackgroundMotionErrors many = MotionErrors.Of(MotionModel.Similarity, Grid, Nodes, 4, 0.01, 1_000_000, 0.2);

        Assert.Equal(Math.Sqrt(0.2), many.ScaleSigma / one.ScaleSigma, 1e-3);
        Assert.Equal(2, one.ShiftSigmaPixels / MotionErrors.Of(MotionModel.Similarity, Grid, Nodes, 1, 0.01, 1, 0.2).ShiftSigmaPixels, 1e-12);
    }

    [Theory]
    [InlineData(MotionModel.None, 0.01)]
    [InlineData(MotionModel.Similarity, double.NaN)]
    public void Of_NothingFitted_IsNone(MotionModel model, double noise) =>
        Assert.Equal(BackgroundMotionErrors.None, MotionErrors.Of(model, Grid, Nodes, 1, noise, 1, 0));

    private static double[] Draw(Random random, int count, double sigma) =>
        [.. Enumerable.Range(0, count).Select(_ => sigma * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble()))];
}
