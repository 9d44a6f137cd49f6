using BosFlow.Camera;
using BosFlow.Speckle;

namespace BosFlow.Tests.Camera;

public sealed class PlaneFitTests
{
    [Theory]
    [InlineData(0.25, 0.2, 1.01)]
    [InlineData(-0.2, 0.3, 0.99)]
    [InlineData(0.02, 0.03, 1.004)]
    public void Fit_ExactCorners_FindsStretchGrowthAndPlace(double tiltX, double tiltY, double ratio)
    {
        PlaneCamera camera = PlaneCameras.At(tiltX, tiltY, ratio: ratio, radial: 0.01);
        PlaneMap truth = camera.ToMap();

        PlaneFitResult fit = PlaneFit.Fit(PlaneModel.Photo, PlaneCameras.Corners(truth, growth: 1e-4), PlaneCameras.Width, PlaneCameras.Height)!;

        Assert.InRange(Math.Abs((fit.Ratio / ratio) - 1), 0, 2 * fit.RatioSigma);
        Assert.InRange(fit.RmsPixels, 0, 0.01);
        (double x, double y) = truth.ToPicture(0.20, 0.07);
        (double seenX, double seenY) = fit.Map.ToPicture(0.20, 0.07);
        Assert.InRange(double.Hypot(seenX - x, seenY - y), 0, 0.05);
        Assert.Equal(1e-4, fit.EdgeGrowthMetres, 5e-6);
    }

    [Fact]
    public void Fit_NoisyCorners_StretchScattersAsItsSigmaSays()
    {
        double squares = 0;
        const int draws = 12;
        for (int draw = 0; draw < draws; draw++)
        {
            var random = new SeededRandom(SeededRandom.PartSeed(11, draw, 0));
            double Tilt() => 0.35 * ((2 * random.NextUniform()) - 1);
            PlaneCamera straight = PlaneCameras.At(Tilt(), Tilt(), 1800 + (4000 * random.NextUniform()));
            PlaneCamera camera = straight with { CentreX = straight.CentreX + (24 * random.NextNormal()), CentreY = straight.CentreY + (24 * random.NextNormal()) };
            PlanePoint[] seen = [.. PlaneCameras.Corners(camera.ToMap()).Select(point => point with { Column = point.Column + (0.1 * random.NextNormal()), Row = point.Row + (0.1 * random.NextNormal()) })];

            PlaneFitResult fit = PlaneFit.Fit(PlaneModel.Photo, seen, PlaneCameras.Width, PlaneCameras.Height)!;

            squares += Math.Pow((fit.Ratio - 1) / fit.RatioSigma, 2);
        }

        // The sigma holds a lens's higher terms too, which these have not: below one, and not by an order.
        Assert.InRange(Math.Sqrt(squares / draws), 0.2, 1.2);
    }

    [Fact]
    public void Fit_TiltAboutOneAxis_SaysThatItKnowsLessThanStraightOn()
    {
        PlaneFitResult straight = Seen((0, 0, 0));
        PlaneFitResult tilted = Seen((0.3, 0, 0));

        Assert.True(tilted.RatioSigma > 2 * straight.RatioSigma, $"{tilted.RatioSigma} {straight.RatioSigma}");
    }

    private static PlaneFitResult Seen((double X, double Y, double Z) rotation)
    {
        var random = new SeededRandom(5);
        List<PlanePoint> corners = PlaneCameras.Corners((PlaneCameras.At(0, 0) with { Rotation = rotation }).ToMap());
        PlanePoint[] noisy = [.. corners.Select(point => point with { Column = point.Column + (0.1 * random.NextNormal()), Row = point.Row + (0.1 * random.NextNormal()) })];
        return PlaneFit.Fit(PlaneModel.Photo, noisy, PlaneCameras.Width, PlaneCameras.Height)!;
    }

    [Fact]
    public void Fit_OneWrongSquare_IsLeftOut()
    {
        List<PlanePoint> points = PlaneCameras.Corners(PlaneCameras.At(0.1, 0.1).ToMap());
        points[5] = points[5] with { Column = points[5].Column + 20 };

        PlaneFitResult fit = PlaneFit.Fit(PlaneModel.Photo, points, PlaneCameras.Width, PlaneCameras.Height)!;

        Assert.Equal(points.Count - 1, fit.Points);
        Assert.InRange(fit.RmsPixels, 0, 0.05);
    }

    [Fact]
    public void Fit_ScanOfStretchedPrint_GivesTheStretch()
    {
        List<PlanePoint> points = PlaneCameras.Corners(PlaneCameras.At(0, 0, focal: 3e9, ratio: 1.006).ToMap());

        PlaneFitResult fit = PlaneFit.Fit(PlaneModel.Scan, points, PlaneCameras.Width, PlaneCameras.Height)!;

        Assert.Equal(1.006, fit.Ratio, 1e-5);
        Assert.InRange(fit.RmsPixels, 0, 0.01);
    }

    [Fact]
    public void Fit_PointsOnOneLine_GivesNothing()
    {
        PlaneMap map = PlaneCameras.At(0.1, 0.1).ToMap();
        PlanePoint[] line = [.. Enumerable.Range(0, 8).Select(i => (X: 0.03 * i, Seen: map.ToPicture(0.03 * i, 0.1))).Select(p => new PlanePoint(p.X, 0.1, 0, 0, p.Seen.X, p.Seen.Y))];

        Assert.Null(PlaneFit.Fit(PlaneModel.Photo, line, PlaneCameras.Width, PlaneCameras.Height));
    }
}
