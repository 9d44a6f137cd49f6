using BosFlow.Footage;
using BosFlow.Registration;

namespace BosFlow.Tests.Registration;

public sealed class ReferenceBuilderTests
{
    private const int Width = 240;
    private const int Height = 176;
    private const int Shaken = 9;

    private static readonly SpeckleScene Scene = new(Width, Height, noisePercent: 3);
    private static readonly SpeckleScene Quiet = new(Width, Height, noisePercent: 0);
    private static readonly Frame[] ShakenFrames = [.. Enumerable.Range(0, Shaken).Select(i => Of(i, Scene.Picture(i, Shake(i))))];
    private static readonly RegistrationSettings Registration = new() { LargestShiftPixels = 16 };
    private static readonly RegionMask Region = RegionMask.Build(new RegionSettings(), Width, Height);

    [Theory]
    [InlineData(ReferenceCombination.Mean, 1)]
    [InlineData(ReferenceCombination.Median, 1.2533)]
    public void Build_ShakenFrames_LowersTheNoiseByTheRootOfTheirNumber(ReferenceCombination combination, double efficiencyLoss)
    {
        Reference reference = Build(ShakenFrames, combination);

        GrayImage clean = Quiet.Picture(0);
        double one = Deviation(ShakenFrames[0].Image!, clean);
        double many = Deviation(reference.Image, clean);
        Assert.Equal(Shaken, reference.FrameCount);
        // Mean: 1/3, median: sqrt(pi/2) more (asymptotic, textbook); interpolation passes the noise between pixels weakened,
        // misalignment and rounding to 8 bits (0.29 grey levels) add a little.
        Assert.InRange(many / one, 0.26 * efficiencyLoss, 0.37 * efficiencyLoss);
        Assert.Empty(reference.Warnings);
    }

    [Fact]
    public void Build_ShakenFrames_KeepsTheGradients()
    {
        Reference reference = Build(ShakenFrames, ReferenceCombination.Mean);

        // Regression slope of the gradients on those of the noise-free picture: 1 without blur. Dots of 3 px blurred by
        // 0.3 px of misalignment would give about 0.9.
        Assert.InRange(GradientSlope(reference.Image, Quiet.Picture(0)), 0.985, 1.01);
    }

    [Fact]
    public void Build_Frame_IsAlignedFarBetterThanATwentiethOfAPixel()
    {
        foreach (int i in new[] { 3, 5, 8 })
        {
            Frame[] frames = [Of(0, Quiet.Picture(0)), Of(i, Quiet.Picture(i, Shake(i)))];

            Reference reference = Build(frames, ReferenceCombination.Mean);

            // The mean of the first and an aligned copy differs from the first by gradient * misalignment / 2; each quarter of
            // the picture is judged by itself, which shows a wrong turn or scale too. Expected: 0.002 px of interpolation bias
            // and 0.001 px of rounding to 8 bits.
            foreach ((int left, int top) in new[] { (12, 12), (Width / 2, 12), (12, Height / 2), (Width / 2, Height / 2) })
            {
                (double u, double v) = Misalignment(reference.Image, frames[0].Image!, left, top);
                Assert.InRange(u, -0.008, 0.008);
                Assert.InRange(v, -0.008, 0.008);
            }
        }
    }

    [Fact]
    public void Build_OneFrame_IsTakenAsItIs()
    {
        Frame frame = Of(0, Scene.Picture(0));

        Reference reference = Build([frame], ReferenceCombination.Mean);

        Assert.Same(frame.Image, reference.Image);
        Assert.Equal(1, reference.FrameCount);
        Assert.StartsWith("One frame", reference.Description, StringComparison.Ordinal);
    }

    [Fact]
    public void Build_FramesThatDoNotReach_CountOnlyWhereTheyDo()
    {
        Frame[] frames = [Of(0, Quiet.Picture(0)), Of(1, Quiet.Picture(1, PlanarMotion.Shift(30, 0)))];

        Reference reference = Build(frames, ReferenceCombination.Mean);

        // The second frame does not show the first one's last 30 columns.
        for (int x = Width - 25; x < Width; x++)
            Assert.Equal(frames[0].Image![x, 100], reference.Image[x, 100]);
    }

    [Fact]
    public void Build_MissingPixelsEverywhere_StayMissingAndDoNotSpread()
    {
        float[] holed = Quiet.Picture(0).Pixels.ToArray();
        holed[(100 * Width) + 50] = float.NaN;
        Frame[] frames =
        [
            Of(0, new GrayImage(Width, Height, holed, 255)),
            Of(1, Quiet.Picture(1, PlanarMotion.Shift(2.5, 1.25))),
            Of(2, new GrayImage(Width, Height, holed, 255)),
        ];

        Reference one = Build([frames[0]], ReferenceCombination.Mean);
        Reference both = Build([frames[0], frames[2]], ReferenceCombination.Median);
        Reference three = Build(frames, ReferenceCombination.Mean);

        Assert.True(float.IsNaN(one.Image[50, 100]));
        Assert.True(float.IsNaN(both.Image[50, 100]));
        Assert.False(float.IsNaN(both.Image[51, 100]));
        // From the one frame that shows it; interpolated on the flank of a dot of 150 grey levels.
        Assert.Equal(Quiet.Picture(0)[50, 100], three.Image[50, 100], 8f);
    }

    [Fact]
    public void Build_BadFrames_AreLeftOutWithAWarning()
    {
        Frame[] frames =
        [
            new Frame(0, 0, "ref_0.png", null, "The file is empty."),
            Of(1, Scene.Picture(1)),
            Of(2, new SpeckleScene(Width, Height, seed: 50).Picture(2)),
            Of(3, Scene.Picture(3, Shake(3))),
        ];

        Reference reference = Build(frames, ReferenceCombination.Mean);

        Assert.Equal(2, reference.FrameCount);
        Assert.Contains("2 of 4 reference frames were left out, first ref_0.png: The file is empty.", reference.Warnings);
    }

    [Fact]
    public void Build_NothingUsable_SaysWhy()
    {
        Frame[] frames = [new Frame(0, 0, "ref_0.png", null, "The file is empty."), Of(1, new GrayImage(Width, Height, new float[Width * Height], 255))];

        InputDataException exception = Assert.Throws<InputDataException>(() => Build(frames, ReferenceCombination.Mean));

        Assert.Contains("None of the 2 reference frames", exception.Message, StringComparison.Ordinal);
        Assert.Contains("ref_0.png: The file is empty.", exception.Message, StringComparison.Ordinal);
        Assert.Throws<InputDataException>(() => Build([], ReferenceCombination.Mean));
    }

    [Fact]
    public void Build_FrameOfAnotherSize_IsAMistakeInTheCase()
    {
        Assert.Throws<InputDataException>(() => Build([Of(0, new SpeckleScene(200, 150).Picture(0))], ReferenceCombination.Mean));
    }

    [Fact]
    public void Build_WholeClip_StatesTheConsequence()
    {
        var source = new ReferenceSource([Of(0, Scene.Picture(0)), Of(1, Scene.Picture(1))], "all frames", [], true);

        Reference reference = Builder(ReferenceCombination.Mean).Build(source, Region, CancellationToken.None);

        Assert.Contains(reference.Warnings, warning => warning.Contains("only departures from the mean are seen", StringComparison.Ordinal));
    }

    [Fact]
    public void Build_MedianWithLittleMemory_TakesFramesSpreadOverAll()
    {
        Frame[] frames = [.. Enumerable.Range(0, 11).Select(i => Of(i, Scene.Picture(i)))];
        var builder = new ReferenceBuilder(new RegistrationSettings { Motion = MotionModel.None }, ReferenceCombination.Median, 1, keptBytes: 4L * Width * Height * 4);

        Reference reference = builder.Build(new ReferenceSource(frames, "test", [], false), Region, CancellationToken.None);

        // Four fit: 0 1 2 3, then 0 2 4 6, then 0 4 8.
        Assert.Equal(3, reference.FrameCount);
        float[] expected = [frames[0].Image![40, 40], frames[4].Image![40, 40], frames[8].Image![40, 40]];
        Assert.Equal(expected.Order().ElementAt(1), reference.Image[40, 40]);
        Assert.Contains(reference.Warnings, warning => warning.Contains("3 of the 11", StringComparison.Ordinal));
    }

    [Fact]
    public void Build_JointWithLittleMemory_FitsTheFirstFramesAndSaysSo()
    {
        Frame[] frames = [.. Enumerable.Range(0, 6).Select(i => Of(i, Scene.Picture(i, Shake(i))))];
        var builder = new ReferenceBuilder(Registration, ReferenceCombination.Joint, 1, keptBytes: 4L * Width * Height * 4);

        Reference reference = builder.Build(new ReferenceSource(frames, "test", [], false), Region, CancellationToken.None);

        Assert.Equal(4, reference.FrameCount);
        Assert.StartsWith("Joint fit of 4 frames aligned to the first", reference.Description, StringComparison.Ordinal);
        Assert.NotNull(reference.Underlying);
        Assert.Contains(reference.Warnings, warning => warning.Contains("the first 4 of the 6", StringComparison.Ordinal));
    }

    [Fact]
    public void Build_JointFramesOfOtherExposure_AreTakenAtTheLevelOfTheFirst()
    {
        Frame[] frames = [.. Enumerable.Range(0, 6).Select(i => Of(i, Brighter(Scene.Picture(i, Shake(i)), i == 0 ? 1 : 0.7f)))];

        Reference reference = Builder(ReferenceCombination.Joint).Build(new ReferenceSource(frames, "test", [], false), Region, CancellationToken.None);

        double level = frames[0].Image!.Pixels.ToArray().Average(), joint = reference.Image.Pixels.ToArray().Where(float.IsFinite).Average();
        Assert.Equal(level, joint, 0.01 * level);

        static GrayImage Brighter(GrayImage picture, float factor) =>
            new(picture.Width, picture.Height, [.. picture.Pixels.ToArray().Select(value => factor * value)], picture.WhiteLevel);
    }

    [Theory]
    [InlineData(ReferenceCombination.Mean)]
    [InlineData(ReferenceCombination.Joint)]
    public void Build_OtherNumberOfThreads_GivesTheSameBits(ReferenceCombination combination)
    {
        Frame[] frames = [.. Enumerable.Range(0, 3).Select(i => Of(i, Scene.Picture(i, Shake(i))))];
        var source = new ReferenceSource(frames, "test", [], false);

        Reference one = new ReferenceBuilder(Registration, combination, 1).Build(source, Region, CancellationToken.None);
        Reference four = new ReferenceBuilder(Registration, combination, 4).Build(source, Region, CancellationToken.None);

        Assert.Equal(one.Image.Pixels.ToArray(), four.Image.Pixels.ToArray());
    }

    private static PlanarMotion Shake(int frame)
    {
        var random = new Random(frame);
        return frame == 0
            ? PlanarMotion.Identity
            : Scene.Similarity(8 * (random.NextDouble() - 0.5), 8 * (random.NextDouble() - 0.5), 0.3 * (random.NextDouble() - 0.5), 1 + (0.004 * (random.NextDouble() - 0.5)));
    }

    private static Frame Of(int index, GrayImage image) => new(index, index / 50.0, FormattableString.Invariant($"ref_{index}.png"), image, null);

    private static ReferenceBuilder Builder(ReferenceCombination combination) => new(Registration, combination, 2);

    private static Reference Build(Frame[] frames, ReferenceCombination combination) =>
        Builder(combination).Build(new ReferenceSource(frames, "test", [], false), Region, CancellationToken.None);

    // Over the pixels that all shaken frames show.
    private static double Deviation(GrayImage a, GrayImage b)
    {
        double sum = 0;
        int count = 0;
        for (int y = 12; y < a.Height - 12; y++)
        {
            for (int x = 12; x < a.Width - 12; x++, count++)
                sum += Math.Pow(a[x, y] - b[x, y], 2);
        }

        return Math.Sqrt(sum / count);
    }

    private static double GradientSlope(GrayImage picture, GrayImage truth)
    {
        double product = 0;
        double square = 0;
        for (int y = 12; y < truth.Height - 12; y++)
        {
            for (int x = 12; x < truth.Width - 12; x++)
            {
                double expected = truth[x + 1, y] - truth[x - 1, y];
                product += expected * (picture[x + 1, y] - picture[x - 1, y]);
                square += expected * expected;
            }
        }

        return product / square;
    }

    private static (double U, double V) Misalignment(GrayImage mean, GrayImage first, int left, int top)
    {
        double uu = 0, uv = 0, vv = 0, ud = 0, vd = 0;
        for (int y = top; y < top + (Height / 2) - 12; y++)
        {
            for (int x = left; x < left + (Width / 2) - 12; x++)
            {
                double gx = (first[x + 1, y] - first[x - 1, y]) / 2;
                double gy = (first[x, y + 1] - first[x, y - 1]) / 2;
                double d = 2 * (mean[x, y] - first[x, y]);
                uu += gx * gx;
                uv += gx * gy;
                vv += gy * gy;
                ud += gx * d;
                vd += gy * d;
            }
        }

        double determinant = (uu * vv) - (uv * uv);
        return (((ud * vv) - (vd * uv)) / determinant, ((vd * uu) - (ud * uv)) / determinant);
    }
}
