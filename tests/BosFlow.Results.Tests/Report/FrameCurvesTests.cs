using BosFlow.Pipeline;
using BosFlow.Registration;
using BosFlow.Results.Plots;
using BosFlow.Results.Report;

namespace BosFlow.Results.Tests.Report;

public sealed class FrameCurvesTests
{
    [Fact]
    public void Of_FewFrames_EachIsAPoint()
    {
        var curves = new FrameCurves([Frame(0, 0.25), Frame(1, 0.5) with { Failure = "damaged" }, Frame(2, 0.75)]);

        PlotCurve curve = curves.Of("u", f => f.NoiseFloorU);

        Assert.Equal([0.25, double.NaN, 0.75], curve.Y);
        Assert.Equal([0, 0.5, 1], curve.X);
        Assert.Null(curve.Band);
        Assert.Equal("time (s)", curves.Label);
    }

    [Fact]
    public void Of_ManyFrames_LineIsMedianAndBandHoldsEveryFrame()
    {
        // Four frames share a point: one of them stands out, one could not be measured.
        FrameRecord[] frames = [.. Enumerable.Range(0, 1200).Select(i => Frame(i, i % 4 == 3 ? 9 : i % 4))];
        frames[1] = frames[1] with { Failure = "damaged", NoiseFloorU = double.NaN };
        for (int i = 4; i < 8; i++)
            frames[i] = frames[i] with { Failure = "damaged", NoiseFloorU = double.NaN };
        var curves = new FrameCurves(frames);

        PlotCurve curve = curves.Of("u", f => f.NoiseFloorU);

        Assert.Equal(4, curves.FramesAPoint);
        Assert.Equal(300, curve.X.Length);
        Assert.Equal([2, double.NaN, 1.5], curve.Y[..3]);
        Assert.Equal([0, double.NaN, 0], curve.Band!.Low[..3]);
        Assert.Equal([9, double.NaN, 9], curve.Band.High[..3]);
        Assert.Equal(9.0, PlotLimits.Of([curve], fromZero: true).Top, 1.0);
        Assert.True(PlotLimits.Of([curve], fromZero: true).Top > 9);
    }

    private static FrameRecord Frame(int index, double noise) =>
        new(index, index * 0.5, $"{index}.png", PlanarMotion.Identity, noise, noise, 1, 50, 0, null, []);
}
