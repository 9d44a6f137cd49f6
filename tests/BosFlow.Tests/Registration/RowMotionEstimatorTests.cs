using BosFlow.Footage;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Tests.Registration;

public sealed class RowMotionEstimatorTests
{
    private const int Width = 512;
    private const int Height = 384;
    private const double ReadoutSeconds = 0.01;
    private static readonly RegistrationSettings Settings = new() { RowIntervals = 12 };
    private static readonly SpeckleSettings Speckle = new() { Seed = 9, DotsPerPixel = 0.05, MarginPixels = 80 };
    private static readonly Dot[] Pattern = [.. SpecklePattern.Draw(Width, Height, Speckle)];

    [Theory]
    [InlineData(0.0, 0.2)]
    [InlineData(3.0, 0.2)]
    [InlineData(6.0, 0.3)]
    public void Estimate_ShakenRows_IsWhereTheEngineCanStart(double shiftRms, double largestError)
    {
        // Content up to 120 Hz in 10 ms on 384 rows moves them against each other as fast as 180 Hz do on 720.
        var shake = new RowShake(shiftRms, shiftRms / 6, 120, ReadoutSeconds, Width, Height, 21);
        GrayImage reference = Render(PlanarMotion.Identity, 0);
        PixelMask sides = Sides();
        var estimator = new RowMotionEstimator(reference, sides, Settings, RowModel.Of(sides, Settings)!);
        for (int frame = 1; frame <= 3; frame++)
        {
            IPictureMotion truth = shake.At(frame / 60.0);
            MotionEstimate estimate = estimator.Estimate(Render(truth, frame), CancellationToken.None);

            Assert.Null(estimate.Failure);
            Assert.InRange(WorstInside(truth, estimate.Motion), 0, largestError);
        }
    }

    [Fact]
    public void Estimate_AnotherScene_SaysThatTheBackgroundIsLost()
    {
        GrayImage reference = Render(PlanarMotion.Identity, 0);
        PixelMask sides = Sides();
        var estimator = new RowMotionEstimator(reference, sides, Settings, RowModel.Of(sides, Settings)!);
        Dot[] other = [.. SpecklePattern.Draw(Width, Height, Speckle with { Seed = 10 })];

        MotionEstimate estimate = estimator.Estimate(Render(PlanarMotion.Identity, 1, other), CancellationToken.None);

        Assert.Contains("could not be found again within 64 px", estimate.Failure, StringComparison.Ordinal);
    }

    [Fact]
    public void Constructor_HardlyAnyBackground_SaysSo()
    {
        byte[] values = new byte[Width * Height];
        for (int y = 100; y < 150; y++)
            values.AsSpan(y * Width, Width).Fill(1);
        var strip = new PixelMask(Width, Height, values);

        var estimator = new RowMotionEstimator(Render(PlanarMotion.Identity, 0), strip, Settings, RowModel.Of(strip, Settings)!);

        Assert.Contains("too few places", estimator.Unusable, StringComparison.Ordinal);
    }

    private static GrayImage Render(IPictureMotion motion, int frame, Dot[]? dots = null) => SceneRenderer.Render(
        dots ?? Pattern, motion, Width, Height, Speckle, new SensorSettings { NoisePercent = 1 }, 5, frame, CancellationToken.None);

    private static PixelMask Sides()
    {
        byte[] values = new byte[Width * Height];
        for (int i = 0; i < values.Length; i++)
            values[i] = i % Width is < 170 or > 340 ? (byte)1 : (byte)0;
        return new PixelMask(Width, Height, values);
    }

    // What the frame has lost at its edges cannot be known.
    private static double WorstInside(IPictureMotion truth, IPictureMotion found)
    {
        const int Edge = 24;
        double worst = 0;
        for (int y = 0; y < Height; y += 6)
        {
            for (int x = 0; x < Width; x += 32)
            {
                (double u, double v) = truth.DisplacementAt(x, y);
                if (y + v < Edge || y + v > Height - Edge || y < Edge || y > Height - Edge)
                    continue;
                (double foundU, double foundV) = found.DisplacementAt(x, y);
                worst = Math.Max(worst, Math.Max(Math.Abs(u - foundU), Math.Abs(v - foundV)));
            }
        }

        return worst;
    }
}
