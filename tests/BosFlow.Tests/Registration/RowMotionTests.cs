using BosFlow.Camera;
using BosFlow.Footage;
using BosFlow.Registration;

namespace BosFlow.Tests.Registration;

public sealed class RowMotionTests
{
    private const int Width = 640;
    private const int Height = 480;
    private static readonly RegistrationSettings Settings = new() { RowIntervals = 20 };

    [Fact]
    public void At_AnyRow_HasWeightsThatSumToOneAndReproduceALine()
    {
        var basis = new RowBasis(Height, 7);
        double[] constant = [.. Enumerable.Repeat(3.5, basis.Count)];

        // A cubic B-spline whose coefficients lie on a line is that line (its coefficients belong to the knots, one before the first).
        double[] line = [.. Enumerable.Range(0, basis.Count).Select(i => 2 + (0.01 * (i - 1) * basis.Spacing))];
        for (double row = -10; row < Height + 10; row += 3.7)
        {
            Assert.Equal(3.5, basis.Value(constant, row), 1e-12);
            Assert.Equal(2 + (0.01 * row), basis.Value(line, row), 1e-12);
        }
    }

    [Fact]
    public void Fit_OfASimilarity_GivesItBack()
    {
        // The motion of a whole frame is among the motions by rows.
        PlanarMotion truth = KnownMotions.Similarity(3.2, -1.7, 0.2, 1.001, Width, Height);
        MotionFitResult fit = Fit(truth, Mask(_ => true), noise: 0);

        Assert.Null(fit.Failure);
        Assert.InRange(VectorCloud.Distance(truth, fit.Motion, Width, Height), 0, 1e-6);
        Assert.InRange(VectorCloud.Distance(truth, fit.Motion.Planar, Width, Height), 0, 1e-6);
        Assert.Equal(0, fit.ResidualRmsU, 1e-6);
    }

    [Theory]
    [InlineData(true, 0, 0.005)]
    [InlineData(false, 0.01, 0.1)]
    public void Fit_TurningWhileRowsAreRead_IsFollowedOnlyWhereTheReferencesShakeIsKnown(bool isKnown, double least, double largest)
    {
        // Camera and reference shake by 6 px and 0.15 degrees within a frame; a row of the reference crosses several rows of a turned frame, which were read at other times.
        PlanarMotion Frame(double row) => KnownMotions.Similarity(6 * Math.Sin(row / 50), 5 * Math.Cos(row / 60), 0.15 * Math.Sin((row / 55) + 1), 1, Width, Height);
        PlanarMotion First(double row) => KnownMotions.Similarity(4 * Math.Cos(row / 58), 6 * Math.Sin(row / 52), 0.1 * Math.Sin(row / 61), 1, Width, Height);
        var truth = new BetweenShaken(First, Frame);
        var still = new BetweenShaken(First, _ => PlanarMotion.Identity);
        RowMotion? reference = isKnown ? Assert.IsType<RowMotion>(Fit(new BetweenShaken(First, _ => PlanarMotion.Identity), Mask(_ => true), noise: 0.001).Motion) : null;

        MotionFitResult fit = Fit(truth, Mask(_ => true), noise: 0.001, reference: reference);

        // Away from the rows that the shake moves out of the picture.
        double worst = 0;
        for (int y = 40; y < Height - 40; y += 7)
        {
            foreach (int x in (int[])[0, 160, 320, 480, Width - 1])
            {
                (double u, double v) = truth.DisplacementAt(x, y);
                (double fittedU, double fittedV) = fit.Motion.DisplacementAt(x, y);
                worst = Math.Max(worst, Math.Max(Math.Abs(u - fittedU), Math.Abs(v - fittedV)));
            }
        }

        Assert.InRange(worst, least, largest);
    }

    [Fact]
    public void Fit_OfASimilarityBehindALens_GivesItBack()
    {
        // A row of the sensor is a curve in the ideal picture, and turning moves the ends of it otherwise than its middle.
        var lens = new LensModel(LensParameters.Undistorted(Width, Height, 600) with { Radial1 = -0.1 });
        PlanarMotion truth = KnownMotions.Similarity(3.2, -1.7, 0.2, 1.001, Width, Height);
        MotionFitResult fit = Fit(truth, Mask(_ => true), noise: 0, lens: lens);

        Assert.Null(fit.Failure);
        Assert.InRange(VectorCloud.Distance(truth, fit.Motion, Width, Height), 0, 1e-4);
    }

    [Fact]
    public void SlopeAt_BehindALens_IsTheChangeFromRowToRowOfTheSensor()
    {
        var lens = new LensModel(LensParameters.Undistorted(Width, Height, 600) with { Radial1 = -0.1 });
        PlanarMotion Shake(double row) => PlanarMotion.Shift(0.02 * row, -0.01 * row);
        MotionFitResult fit = Fit(new MotionOfRows(Shake, lens), Mask(_ => true), noise: 0, lens: lens);
        var motion = Assert.IsType<RowMotion>(fit.Motion);

        (double u, double v) = motion.SlopeAt(100, 80);

        Assert.Equal(0.02, u, 1e-4);
        Assert.Equal(-0.01, v, 1e-4);
    }

    [Fact]
    public void Fit_OfShakenRows_FollowsThemAndKnowsItsError()
    {
        // 6 px of vibration up to 180 Hz, read in 10 ms: 1.8 periods in a frame.
        var shake = new RowShake(6, 1, 180, 0.01, Width, Height, 3);
        IPictureMotion truth = shake.At(0.4);
        PixelMask sides = Mask(x => x is < 200 or > 440);
        MotionFitResult fit = Fit(truth, sides, noise: 0.01);

        Assert.Equal(0.01, fit.ResidualRmsU, 0.0007);
        Assert.Equal(0.01, fit.ResidualRmsV, 0.0007);
        double squares = 0, expected = 0;
        int count = 0;
        for (int y = 24; y < Height - 24; y += 8)
        {
            for (int x = 200; x <= 440; x += 40)
            {
                (double u, double v) = truth.DisplacementAt(x, y);
                (double foundU, double foundV) = fit.Motion.DisplacementAt(x, y);
                squares += ((u - foundU) * (u - foundU)) + ((v - foundV) * (v - foundV));
                double sigma = fit.Uncertainty!.At(x, y).SigmaU;
                expected += 2 * sigma * sigma;
                count++;
            }
        }

        // 40 rows of some 24 independent errors: the ratio of the RMS scatters by a tenth.
        Assert.InRange(Math.Sqrt(squares / expected), 0.75, 1.3);
        Assert.InRange(Math.Sqrt(squares / (2 * count)), 0, 0.006);
    }

    [Fact]
    public void Fit_WithWrongVectors_LeavesThemOut()
    {
        var shake = new RowShake(4, 0.5, 120, 0.01, Width, Height, 5);
        IPictureMotion truth = shake.At(0.1);
        MotionFitResult fit = Fit(truth, Mask(_ => true), noise: 0.01, wrongShare: 0.2, start: truth);

        Assert.InRange(fit.OutlierShare, 0.17, 0.23);
        Assert.Equal(0.01, fit.ResidualRmsU, 0.001);
    }

    [Fact]
    public void Of_BackgroundOnOneSide_TellsOneTurnForTheFrameOnly()
    {
        RowModel both = RowModel.Of(Mask(x => x is < 200 or > 440), Settings)!;
        RowModel left = RowModel.Of(Mask(x => x < 200), Settings)!;

        Assert.True(both.TurnsByRow);
        Assert.Empty(new RowMotionFitter(both, 1).Remarks);
        Assert.False(left.TurnsByRow);
        Assert.Contains("one side of the flow only", Assert.Single(new RowMotionFitter(left, 1).Remarks), StringComparison.Ordinal);
        Assert.Null(RowModel.Of(Mask(_ => true), new RegistrationSettings()));
    }

    [Fact]
    public void At_RowsWithoutBackground_IsUncertainThere()
    {
        // Rows 180 to 300 have no vectors: two and a half knots at either end, five in the middle.
        var shake = new RowShake(6, 1, 180, 0.01, Width, Height, 7);
        MotionFitResult fit = Fit(shake.At(0), Mask(_ => true), 0.01, from: 180, to: 300);

        Assert.InRange(fit.Uncertainty!.At(320, 100).SigmaU, 0, 0.005);
        Assert.InRange(fit.Uncertainty!.At(320, 240).SigmaU, 0.5, 100);
        (double u, _) = shake.At(0).DisplacementAt(320, 240);
        Assert.InRange(Math.Abs(fit.Motion.DisplacementAt(320, 240).U - u) / fit.Uncertainty!.At(320, 240).SigmaU, 0, 3);
    }

    [Fact]
    public void Complete_ReadoutLongerThanAFrame_IsRefused()
    {
        double[] times = [0, 1 / 60.0, 2 / 60.0];
        RegistrationSettings settings = RowTiming.Complete(new RegistrationSettings { ReadoutSeconds = 0.01 }, times, 720, 32);

        // Twelve intervals for each period of three times 60 Hz within 10 ms.
        Assert.Equal(22, settings.RowIntervals);
        Assert.Equal(12, RowTiming.Complete(new RegistrationSettings { ReadoutSeconds = 0.01 }, times, 384, 32).RowIntervals);
        Assert.Equal(0, RowTiming.Complete(new RegistrationSettings(), times, 720, 32).RowIntervals);
        InputDataException refused = Assert.Throws<InputDataException>(() => RowTiming.Complete(new RegistrationSettings { ReadoutSeconds = 0.02 }, times, 720, 32));
        Assert.Equal("registration.readout_ms = 20 is longer than the time between two frames, 16.667 ms: no camera reads its rows that slowly; give the time from the first row to the last.", refused.Message);
        Assert.Contains("highest_vibration_hz", Assert.Throws<InputDataException>(() => RowTiming.Complete(new RegistrationSettings { ReadoutSeconds = 0.02 }, [double.NaN, double.NaN], 720, 32)).Message, StringComparison.Ordinal);
    }

    private static PixelMask Mask(Func<int, bool> isUndisturbed)
    {
        byte[] values = new byte[Width * Height];
        for (int i = 0; i < values.Length; i++)
            values[i] = isUndisturbed(i % Width) ? (byte)1 : (byte)0;
        return new PixelMask(Width, Height, values);
    }

    private static MotionFitResult Fit(
        IPictureMotion truth, PixelMask undisturbed, double noise, double wrongShare = 0, IPictureMotion? start = null, int from = 0, int to = 0, LensModel? lens = null, RowMotion? reference = null)
    {
        var random = new Random(11);
        double Normal() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
        List<double> x = [], y = [], u = [], v = [];
        for (int row = 8; row < Height; row += 16)
        {
            for (int column = 8; column < Width; column += 16)
            {
                if (!undisturbed[column, row] || (row >= from && row < to))
                    continue;
                (double trueU, double trueV) = truth.DisplacementAt(column, row);
                double wrong = random.NextDouble() < wrongShare ? 3 : 0;
                x.Add(column);
                y.Add(row);
                u.Add(trueU + (noise * Normal()) + wrong);
                v.Add(trueV + (noise * Normal()) - wrong);
            }
        }

        var fitter = new RowMotionFitter(RowModel.Of(undisturbed, Settings with { Lens = lens })!, 1, reference: reference);
        return start is null
            ? fitter.FitTrusted(x.ToArray(), y.ToArray(), u.ToArray(), v.ToArray())
            : fitter.Fit(start, x.ToArray(), y.ToArray(), u.ToArray(), v.ToArray());
    }

    /// <summary>From a reference to a frame, both of which stood differently for every row of their own.</summary>
    private sealed class BetweenShaken(Func<double, PlanarMotion> reference, Func<double, PlanarMotion> frame) : IPictureMotion
    {
        public PlanarMotion Planar => PlanarMotion.Identity;

        public (double U, double V) DisplacementAt(double x, double y)
        {
            (double restX, double restY) = (x, y);
            for (int i = 0; i < 40; i++)
            {
                (double u, double v) = reference(y).DisplacementAt(restX, restY);
                (restX, restY) = (x - u, y - v);
            }

            (double frameX, double frameY) = (x, y);
            for (int i = 0; i < 40; i++)
            {
                (double u, double v) = frame(frameY).DisplacementAt(restX, restY);
                (frameX, frameY) = (restX + u, restY + v);
            }

            return (frameX - x, frameY - y);
        }
    }

    private sealed class MotionOfRows(Func<double, PlanarMotion> at, LensModel lens) : IPictureMotion
    {
        public PlanarMotion Planar => at(Height / 2.0);

        public (double U, double V) DisplacementAt(double x, double y) => at(lens.ToPicture(x, y).Y).DisplacementAt(x, y);
    }
}
