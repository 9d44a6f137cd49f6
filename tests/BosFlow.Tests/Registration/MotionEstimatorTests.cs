using BosFlow.Footage;
using BosFlow.Registration;

namespace BosFlow.Tests.Registration;

public sealed class MotionEstimatorTests
{
    private static readonly SpeckleScene Scene = new(480, 360);
    private static readonly GrayImage Still = Scene.Picture(0);

    // The engine starts from here; it is asked for 0.3 px and typically better than 0.1 px.
    private const double PredictorPixels = 0.3;

    public static TheoryData<MotionModel> Models => [MotionModel.Shift, MotionModel.Rigid, MotionModel.Similarity, MotionModel.Homography];

    [Theory]
    [MemberData(nameof(Models))]
    public void Estimate_MotionOfEachModel_IsFound(MotionModel model)
    {
        PlanarMotion truth = model switch
        {
            MotionModel.Shift => PlanarMotion.Shift(10.4, -9.7),
            MotionModel.Rigid => Scene.Similarity(10.4, -9.7, 0.5, 1),
            MotionModel.Similarity => Scene.Similarity(10.4, -9.7, -0.5, 0.995),
            _ => new PlanarMotion(1.004, -0.007, 6.2, 0.009, 0.996, -3.7, 4e-6, -6e-6),
        };

        AssertFound(truth, Estimate(Scene, Still, Scene.Everywhere, model, Scene.Picture(1, truth)));
    }

    [Theory]
    [InlineData(63.3, -61.8)]
    [InlineData(-64, 64)]
    [InlineData(0.25, 0.5)]
    public void Estimate_ShiftsUpToTheLimit_AreFound(double u, double v)
    {
        PlanarMotion truth = PlanarMotion.Shift(u, v);

        AssertFound(truth, Estimate(Scene, Still, Scene.Everywhere, MotionModel.Similarity, Scene.Picture(1, truth)));
    }

    [Theory]
    [InlineData(48, 0, 2)]
    [InlineData(-48, 36, -2)]
    [InlineData(34, -34, 2)]
    public void Estimate_ATenthOfThePictureTurnedAndBlurred_IsFound(double u, double v, double degrees)
    {
        PlanarMotion truth = Scene.Similarity(u, v, degrees, 1);
        GrayImage blurred = Blurred(u, v, degrees, smearPixels: 3);

        MotionEstimate estimate = Estimate(Scene, Still, Scene.Everywhere, MotionModel.Similarity, blurred);

        // A first estimate only, and blurred dots say less: the engine starts well from half a pixel.
        AssertFound(truth, estimate, 0.5);
    }

    [Fact]
    public void Estimate_TurnedBeyondThreeDegrees_SaysThatTheBackgroundIsLost()
    {
        MotionEstimate estimate = Estimate(Scene, Still, Scene.Everywhere, MotionModel.Similarity, Scene.Picture(1, Scene.Similarity(20, 0, 5, 1)));

        Assert.Contains("could not be found again", estimate.Failure, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1.5)]
    [InlineData(6)]
    [InlineData(12)]
    public void Estimate_OtherDotSizesAndStrongNoise_IsFound(double diameter)
    {
        var scene = new SpeckleScene(480, 360, diameter, noisePercent: 8);
        PlanarMotion truth = scene.Similarity(-8.3, 6.1, 0.4, 1.004);

        AssertFound(truth, Estimate(scene, scene.Picture(0), scene.Everywhere, MotionModel.Similarity, scene.Picture(1, truth)));
    }

    [Fact]
    public void Estimate_PlumeInThePictureAndNoFlowRegion_FollowsTheBackground()
    {
        PlanarMotion truth = Scene.Similarity(7.2, 5.5, 0.3, 1.003);

        AssertFound(truth, Estimate(Scene, Still, Scene.Everywhere, MotionModel.Similarity, Scene.Picture(1, truth, Scene.Plume(4, 60))));
    }

    [Fact]
    public void Estimate_HalfOfTheFrameSaturated_IsFoundFromTheOtherHalf()
    {
        PlanarMotion truth = Scene.Similarity(9.1, -6.4, 0.5, 1.005);
        float[] pixels = Scene.Picture(1, truth).Pixels.ToArray();
        for (int i = 0; i < pixels.Length; i++)
        {
            if (i % Scene.Width >= Scene.Width / 2)
                pixels[i] = 255;
        }

        AssertFound(truth, Estimate(Scene, Still, Scene.Everywhere, MotionModel.Similarity, new GrayImage(Scene.Width, Scene.Height, pixels, 255)));
    }

    [Fact]
    public void Estimate_LightThatStaysWhileTheBoardMoves_DoesNotHoldThePeak()
    {
        PlanarMotion truth = PlanarMotion.Shift(13.6, 11.2);

        MotionEstimate estimate = Estimate(Scene, Lit(Still), Scene.Everywhere, MotionModel.Similarity, Lit(Scene.Picture(1, truth)));

        AssertFound(truth, estimate);
    }

    [Fact]
    public void Estimate_NarrowUndisturbedStrips_IsFound()
    {
        byte[] mask = new byte[Scene.Width * Scene.Height];
        for (int i = 0; i < mask.Length; i++)
            mask[i] = (byte)(i % Scene.Width < 45 || i % Scene.Width >= Scene.Width - 45 ? 1 : 0);
        PlanarMotion truth = Scene.Similarity(5.2, -7.7, 0.4, 1.004);

        MotionEstimate estimate = Estimate(Scene, Still, new PixelMask(Scene.Width, Scene.Height, mask), MotionModel.Similarity, Scene.Picture(1, truth, Scene.Plume(6, 70)));

        AssertFound(truth, estimate);
    }

    [Fact]
    public void Estimate_SmallPictureAndLargeShift_IsFound()
    {
        var scene = new SpeckleScene(200, 150);
        PlanarMotion truth = PlanarMotion.Shift(-41.3, 33.6);

        AssertFound(truth, Estimate(scene, scene.Picture(0), scene.Everywhere, MotionModel.Shift, scene.Picture(1, truth)));
    }

    [Fact]
    public void Estimate_AnotherBoard_FailsWithASentence()
    {
        MotionEstimate estimate = Estimate(Scene, Still, Scene.Everywhere, MotionModel.Similarity, new SpeckleScene(480, 360, seed: 99).Picture(1));

        Assert.NotNull(estimate.Failure);
        Assert.Contains("within 64 px", estimate.Failure, StringComparison.Ordinal);
    }

    [Fact]
    public void Estimate_ShiftBeyondTheLimit_FailsInsteadOfGuessing()
    {
        Assert.NotNull(Estimate(Scene, Still, Scene.Everywhere, MotionModel.Similarity, Scene.Picture(1, PlanarMotion.Shift(95, 20))).Failure);
    }

    [Fact]
    public void Estimate_SeveralThreadsAtOnce_GiveTheSameBits()
    {
        var estimator = new MotionEstimator(Still, Scene.Everywhere, new RegistrationSettings());
        GrayImage[] frames = [.. Enumerable.Range(1, 4).Select(i => Scene.Picture(i, Scene.Similarity(i, -2 * i, 0.1 * i, 1 + (0.001 * i))))];
        MotionEstimate[] alone = [.. frames.Select(frame => estimator.Estimate(frame, CancellationToken.None))];

        MotionEstimate[] together = new MotionEstimate[frames.Length];
        Parallel.For(0, frames.Length, i => together[i] = estimator.Estimate(frames[i], CancellationToken.None));

        Assert.Equal(alone, together);
    }

    [Fact]
    public void Estimate_ModelNone_IsTheIdentity()
    {
        Assert.Equal(PlanarMotion.Identity, Estimate(Scene, Still, Scene.Everywhere, MotionModel.None, Scene.Picture(1, PlanarMotion.Shift(3, 3))).Motion);
    }

    [Fact]
    public void Unusable_NoUndisturbedPixel_SaysWhatToChange()
    {
        var estimator = new MotionEstimator(Still, new PixelMask(Scene.Width, Scene.Height, new byte[Scene.Width * Scene.Height]), new RegistrationSettings());

        Assert.Contains("offers no place", estimator.Unusable, StringComparison.Ordinal);
        Assert.Null(estimator.Estimate(Still, CancellationToken.None).Failure);
    }

    [Fact]
    public void Estimate_Cancelled_Throws()
    {
        using var cancel = new CancellationTokenSource();
        cancel.Cancel();
        var estimator = new MotionEstimator(Still, Scene.Everywhere, new RegistrationSettings());

        Assert.Throws<OperationCanceledException>(() => estimator.Estimate(Still, cancel.Token));
    }

    private static MotionEstimate Estimate(SpeckleScene scene, GrayImage reference, PixelMask mask, MotionModel model, GrayImage frame) =>
        new MotionEstimator(reference, mask, new RegistrationSettings { Motion = model }).Estimate(frame, CancellationToken.None);

    private static void AssertFound(PlanarMotion truth, MotionEstimate estimate, double largest = PredictorPixels)
    {
        Assert.Null(estimate.Failure);
        Assert.InRange(VectorCloud.Distance(truth, estimate.Motion, Scene.Width, Scene.Height), 0, largest);
    }

    // Mean of seven moments of an exposure in which the camera moves to the right and half as far down.
    private static GrayImage Blurred(double u, double v, double degrees, double smearPixels)
    {
        const int Moments = 7;
        float[] mean = new float[Scene.Width * Scene.Height];
        for (int moment = 0; moment < Moments; moment++)
        {
            double way = smearPixels * ((moment / (Moments - 1.0)) - 0.5);
            GrayImage picture = Scene.Picture(1 + moment, Scene.Similarity(u + way, v + (way / 2), degrees, 1));
            for (int i = 0; i < mean.Length; i++)
                mean[i] += picture.Pixels[i] / Moments;
        }

        return new GrayImage(Scene.Width, Scene.Height, mean, Still.WhiteLevel);
    }

    // A lamp at the left: three times as bright there as at the right.
    private static GrayImage Lit(GrayImage image)
    {
        float[] pixels = image.Pixels.ToArray();
        for (int i = 0; i < pixels.Length; i++)
            pixels[i] *= 1 - (0.67f * (i % image.Width) / image.Width);
        return new GrayImage(image.Width, image.Height, pixels, image.WhiteLevel);
    }
}
