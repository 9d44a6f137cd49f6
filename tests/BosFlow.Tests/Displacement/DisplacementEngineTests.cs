using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Synthesis;
using BosFlow.TestKit;

namespace BosFlow.Tests.Displacement;

public sealed class DisplacementEngineTests
{
    private const int Width = 256;
    private const int Height = 192;
    private static readonly WaveTexture Texture = new(1);
    private static readonly GrayImage Reference = Texture.Picture(Width, Height);

    // Band-limited waves without noise leave only interpolation and linearisation: measured worst 0.002 px for quintic
    // least squares; cubic interpolation is less exact, and the
    // Gaussian fit suffers where the frame's border cuts a window.
    public static TheoryData<SubPixelMethod, InterpolationOrder, double, double, double> Shifts
    {
        get
        {
            var cases = new TheoryData<SubPixelMethod, InterpolationOrder, double, double, double>();
            foreach ((double u, double v) in new[] { (0, 0), (0.25, -0.5), (-2.5, 1.37), (7.3, -6.6), (1, 0.75) })
            {
                cases.Add(SubPixelMethod.LeastSquares, InterpolationOrder.Quintic, u, v, 0.004);
                cases.Add(SubPixelMethod.LeastSquares, InterpolationOrder.Cubic, u, v, 0.01);
                cases.Add(SubPixelMethod.ThreePointGaussian, InterpolationOrder.Quintic, u, v, 0.03);
            }

            return cases;
        }
    }

    [Theory]
    [MemberData(nameof(Shifts))]
    public void Measure_UniformShift_IsFound(SubPixelMethod method, InterpolationOrder order, double u, double v, double tolerance)
    {
        VectorField field = Measure(Texture.Picture(Width, Height, u, v), new DisplacementSettings { SubPixel = method, Interpolation = order });

        Assert.True(Share(field, VectorFlags.None) > 0.8);
        for (int node = 0; node < field.Grid.Count; node++)
        {
            if (field.Flags[node] != VectorFlags.None)
                continue;
            Assert.Equal(u, field.U[node], tolerance);
            Assert.Equal(v, field.V[node], tolerance);
        }
    }

    [Fact]
    public void Measure_CodesOfEightBits_GiveTheBytesOfTheSameLevelsAsFloats()
    {
        // With a shift that leaves the picture, so that whole windows of the first pass are read at full resolution too.
        byte[] codes = [.. Texture.Picture(Width, Height, 9.4, -3.3).Pixels.ToArray().Select(level => (byte)Math.Clamp(level, 0, 255))];
        var settings = new DisplacementSettings { SpacingPixels = 8 };

        VectorField fromCodes = Measure(new GrayImage(Width, Height, codes, 255), settings), fromFloats = Measure(new GrayImage(Width, Height, [.. codes.Select(code => (float)code)], 255), settings);

        Assert.Equal(fromFloats.U, fromCodes.U);
        Assert.Equal(fromFloats.SigmaV, fromCodes.SigmaV);
        Assert.Equal(fromFloats.Flags, fromCodes.Flags);
    }

    [Theory]
    [InlineData(DotShape.Gaussian, 3, 0, 0, InterpolationOrder.Quintic)]
    [InlineData(DotShape.Gaussian, 3, 0, 0, InterpolationOrder.Cubic)]
    [InlineData(DotShape.Gaussian, 2, 0, 0, InterpolationOrder.Cubic)]
    [InlineData(DotShape.Disc, 2, 1.5, 2.2, InterpolationOrder.Quintic)]
    [InlineData(DotShape.Disc, 2.5, 1.5, 2.75, InterpolationOrder.Cubic)]
    [InlineData(DotShape.Disc, 3, 1, 3.3, InterpolationOrder.Quintic)]
    public void Measure_QuarterOfAPixel_HasHardlyMoreBiasThanIsStated(DotShape shape, double dot, double blur, double gap, InterpolationOrder order)
    {
        // The wave of the fraction of a pixel is largest at a quarter.
        const int Side = 384;
        double density = gap > 0 ? 0.4 / (gap * gap) : 0.63 / (dot * dot);
        var speckle = new SpeckleSettings { Shape = shape, DotDiameterPixels = dot, BlurPixels = blur > 0 ? blur : 1.5, MinimumGapPixels = gap, DotsPerPixel = density, ContrastFrom = 0.3, ContrastTo = 0.4, MarginPixels = 12, Seed = 22 };
        IReadOnlyList<Dot> pattern = SpecklePattern.Draw(Side, Side, speckle);
        GrayImage Picture(IFlowField? flow) => SceneRenderer.Render(
            SceneRenderer.Displace(pattern, flow, CancellationToken.None), PlanarMotion.Identity, Side, Side, speckle, new SensorSettings(), 6, 0, CancellationToken.None);
        var engine = new DisplacementEngine(Picture(null), PixelMask.All(Side, Side), new DisplacementSettings { Interpolation = order });

        double before = engine.Measure(Picture(LinearField.Uniform(-0.25, 0)), PlanarMotion.Identity, CancellationToken.None).U.Average() + 0.25;
        double after = engine.Measure(Picture(LinearField.Uniform(0.25, 0)), PlanarMotion.Identity, CancellationToken.None).U.Average() - 0.25;

        Assert.InRange(engine.BiasAmplitudePixels, 0.0005, 0.001);
        // What is stated is one standard deviation times the root of two.
        Assert.InRange(Math.Abs(after - before) / 2, 0, 2 * engine.BiasAmplitudePixels);
    }

    [Fact]
    public void Measure_LongWaves_AreNeitherRaisedNorLowered()
    {
        // Iterated deformation has to give waves of many windows back as they are: whatever is wrong by the square of window over wavelength would show here.
        const int Side = 512;
        var speckle = new SpeckleSettings { DotDiameterPixels = 4, DotsPerPixel = 0.05, MarginPixels = 12, Seed = 22 };
        var sensor = new SensorSettings { Bits = 0 };
        IReadOnlyList<Dot> pattern = SpecklePattern.Draw(Side, Side, speckle);
        GrayImage Picture(IFlowField? flow) => SceneRenderer.Render(
            SceneRenderer.Displace(pattern, flow, CancellationToken.None), PlanarMotion.Identity, Side, Side, speckle.DotSigmaPixels, sensor, 6, 0, CancellationToken.None);
        var engine = new DisplacementEngine(Picture(null), PixelMask.All(Side, Side), new DisplacementSettings());
        var wave = new SinusoidField(0.5, 0, 256, 90);

        VectorField field = engine.Measure(Picture(wave), PlanarMotion.Identity, CancellationToken.None);

        double product = 0, square = 0;
        for (int node = 0; node < field.Grid.Count; node++)
        {
            double truth = wave.At(0, field.Grid.Y(node / field.Grid.Columns)).U;
            product += truth * field.U[node];
            square += truth * truth;
        }

        Assert.InRange(product / square, 0.995, 1.005);
    }

    [Fact]
    public void Measure_StrainOfTwoPercent_IsFoundAtTheReferencePosition()
    {
        VectorField field = Measure(Texture.Picture(Width, Height, strain: 0.02), new DisplacementSettings());

        double[] truth = new double[field.Grid.Count];
        for (int node = 0; node < truth.Length; node++)
            truth[node] = 0.02 * field.Grid.X(node % field.Grid.Columns);
        ErrorStatistics errors = ErrorStatistics.Of(Trusted(field, field.U), truth);
        Assert.True(errors.Rms < 0.01, $"RMS {errors.Rms} px");
    }

    [Fact]
    public void Measure_GivenMotion_StartsFromItAndKeepsItInTheResult()
    {
        VectorField field = Measure(Texture.Picture(Width, Height, 38.3, -21.6), new DisplacementSettings(), PlanarMotion.Shift(38, -22));

        Assert.True(Share(field, VectorFlags.None) > 0.5);
        Assert.Contains(VectorFlags.OutOfFrame, field.Flags);
        Assert.Equal(38.3, field.U.Zip(field.Flags).Where(p => p.Second == 0).Average(p => p.First), 0.01);
        Assert.Equal(-21.6, field.V.Zip(field.Flags).Where(p => p.Second == 0).Average(p => p.First), 0.01);
    }

    [Theory]
    [InlineData(0.3, 200)]
    [InlineData(2.5, -150)]
    public void Measure_GainAndOffsetChanged_DoesNotMatter(double gain, double offset)
    {
        GrayImage moved = Texture.Picture(Width, Height, 0.4, 0.2, whiteLevel: float.NaN);
        float[] changed = [.. moved.Pixels.ToArray().Select(p => (float)((gain * p) + offset))];

        VectorField field = Measure(new GrayImage(Width, Height, changed, float.NaN), new DisplacementSettings());

        Assert.Equal(0.4, field.U.Zip(field.Flags).Where(p => p.Second == 0).Average(p => p.First), 0.003);
    }

    [Fact]
    public void Measure_MaskedAndMissingPixels_AreFlaggedAndTheRestIsMeasured()
    {
        byte[] mask = new byte[Width * Height];
        for (int i = 0; i < mask.Length; i++)
            mask[i] = i % Width >= 90 ? (byte)1 : (byte)0;
        float[] pixels = Texture.Picture(Width, Height, 0.7, 0).Pixels.ToArray();
        for (int i = 0; i < pixels.Length; i++)
        {
            if (i / Width >= 110)
                pixels[i] = float.NaN;
        }

        var engine = new DisplacementEngine(Reference, new PixelMask(Width, Height, mask), new DisplacementSettings());
        VectorField field = engine.Measure(new GrayImage(Width, Height, pixels, 255), PlanarMotion.Identity, CancellationToken.None);

        for (int node = 0; node < field.Grid.Count; node++)
        {
            double x = field.Grid.X(node % field.Grid.Columns), y = field.Grid.Y(node / field.Grid.Columns);
            if (x < 80 || y > 130)
            {
                Assert.Equal(VectorFlags.Masked, field.Flags[node]);
                Assert.True(float.IsNaN(field.U[node]) && float.IsNaN(field.SigmaU[node]));
            }
            else if (x > 110 && y < 90)
            {
                Assert.Equal(VectorFlags.None, field.Flags[node]);
                Assert.Equal(0.7, field.U[node], 0.004);
            }
        }
    }

    [Theory]
    [InlineData(CoarseOverlap.Half)]
    [InlineData(CoarseOverlap.Quarter)]
    public void Measure_CoarseWindowsOfEitherOverlap_LeadToTheSameShift(CoarseOverlap overlap)
    {
        const int Wide = 400, High = 304;
        var texture = new WaveTexture(9);
        var engine = new DisplacementEngine(texture.Picture(Wide, High), PixelMask.All(Wide, High), new DisplacementSettings { CoarseOverlap = overlap });

        VectorField field = engine.Measure(texture.Picture(Wide, High, 5.3, -3.7), PlanarMotion.Identity, CancellationToken.None);

        Assert.All(field.U, u => Assert.Equal(5.3, u, 0.004));
        Assert.All(field.V, v => Assert.Equal(-3.7, v, 0.004));
    }

    [Fact]
    public void Measure_HalfSaturatedFrame_IsMeasuredWhereItCanBe()
    {
        float[] pixels = Texture.Picture(Width, Height, -0.6, 0.3).Pixels.ToArray();
        for (int i = 0; i < pixels.Length; i++)
        {
            if (i % Width >= 128)
                pixels[i] = 255;
        }

        VectorField field = Measure(new GrayImage(Width, Height, pixels, 255), new DisplacementSettings());

        for (int node = 0; node < field.Grid.Count; node++)
        {
            double x = field.Grid.X(node % field.Grid.Columns);
            if (x > 148)
                Assert.Equal(VectorFlags.Saturated, field.Flags[node]);
            else if (x < 110)
                Assert.Equal(-0.6, field.U[node], 0.004);
        }
    }

    [Fact]
    public void Measure_FrameWithoutAnythingInCommon_IsFlaggedNotInvented()
    {
        VectorField field = Measure(new WaveTexture(99).Picture(Width, Height), new DisplacementSettings());

        Assert.True(Share(field, VectorFlags.None) < 0.05);
    }

    [Fact]
    public void Measure_ReferenceWithABlankPatch_FlagsLowTexture()
    {
        float[] pixels = Reference.Pixels.ToArray();
        for (int i = 0; i < pixels.Length; i++)
        {
            if (i % Width < 100)
                pixels[i] = 128;
        }

        var engine = new DisplacementEngine(new GrayImage(Width, Height, pixels, 255), PixelMask.All(Width, Height), new DisplacementSettings());
        VectorField field = engine.Measure(Texture.Picture(Width, Height, 0.5), PlanarMotion.Identity, CancellationToken.None);

        Assert.Equal(VectorFlags.LowTexture, field.Flags[0]);
        Assert.True(float.IsNaN(field.U[0]));
        Assert.Equal(VectorFlags.None, field.Flags[field.Grid.Columns - 2 + field.Grid.Columns]);
    }

    [Fact]
    public void Measure_SameEngineFromManyThreads_GivesTheSameBytes()
    {
        var engine = new DisplacementEngine(Reference, PixelMask.All(Width, Height), new DisplacementSettings());
        GrayImage[] frames = [.. Enumerable.Range(0, 6).Select(k => Texture.Picture(Width, Height, 0.3 * k, -0.2 * k))];
        VectorField[] alone = [.. frames.Select(f => engine.Measure(f, PlanarMotion.Identity, CancellationToken.None))];
        var together = new VectorField[frames.Length];

        Parallel.For(0, frames.Length, new ParallelOptions { MaxDegreeOfParallelism = 3 }, k =>
            together[k] = engine.Measure(frames[k], PlanarMotion.Identity, CancellationToken.None));

        for (int k = 0; k < frames.Length; k++)
            SameField.Check(alone[k], together[k]);
    }

    [Theory]
    [InlineData(WindowSizing.Fixed, WindowShape.Constant)]
    [InlineData(WindowSizing.Adaptive, WindowShape.Affine)]
    public void Reuse_OfAResult_GivesTheNextOneItsMemoryAndNothingElse(WindowSizing windows, WindowShape shape)
    {
        var settings = new DisplacementSettings { Windows = windows, Shape = shape };
        var engine = new DisplacementEngine(Reference, PixelMask.All(Width, Height), settings);
        GrayImage first = Texture.Picture(Width, Height, 5.3, -4.2), second = Texture.Picture(Width, Height, -1.2, 0.6);
        VectorField expected = new DisplacementEngine(Reference, PixelMask.All(Width, Height), settings).Measure(second, PlanarMotion.Identity, CancellationToken.None);
        VectorField spent = engine.Measure(first, PlanarMotion.Identity, CancellationToken.None);
        float[] room = spent.U;
        Array.Fill(spent.SigmaU, float.NaN);
        engine.Reuse(spent);

        VectorField field = engine.Measure(second, PlanarMotion.Identity, CancellationToken.None);

        Assert.Same(room, field.U);
        SameField.Check(expected, field);
        Assert.NotSame(room, engine.Measure(second, PlanarMotion.Identity, CancellationToken.None).U);
    }

    [Fact]
    public void Reuse_OfAFieldWithOtherArrays_IsNotWrittenOver()
    {
        var settings = new DisplacementSettings { Windows = WindowSizing.Fixed };
        VectorField other = new DisplacementEngine(Reference, PixelMask.All(Width, Height), settings with { Windows = WindowSizing.Adaptive }).Measure(Reference, PlanarMotion.Identity, CancellationToken.None);
        var engine = new DisplacementEngine(Reference, PixelMask.All(Width, Height), settings);
        engine.Reuse(other);

        Assert.NotSame(other.U, engine.Measure(Reference, PlanarMotion.Identity, CancellationToken.None).U);
    }

    [Theory]
    [InlineData(8)]
    [InlineData(10)]
    public void Measure_FrameDividedAmongThreads_GivesTheSameBytes(int spacing)
    {
        var engine = new DisplacementEngine(Reference, PixelMask.All(Width, Height), new DisplacementSettings { SpacingPixels = spacing });
        GrayImage frame = Texture.Picture(Width, Height, 5.3, -4.2);

        VectorField one = engine.Measure(frame, PlanarMotion.Identity, CancellationToken.None);
        VectorField several = engine.Measure(frame, PlanarMotion.Identity, 3, CancellationToken.None);

        SameField.Check(one, several);
    }

    [Fact]
    public void Measure_Cancelled_Stops()
    {
        var engine = new DisplacementEngine(Reference, PixelMask.All(Width, Height), new DisplacementSettings());

        Assert.Throws<OperationCanceledException>(() => engine.Measure(Reference, PlanarMotion.Identity, new CancellationToken(canceled: true)));
    }

    [Fact]
    public void Constructor_SettingsOutOfRange_ListsEveryProblem()
    {
        var settings = new DisplacementSettings { WindowPixels = 33, SpacingPixels = 1, Passes = 0 };

        var failure = Assert.Throws<ConfigurationException>(() => new DisplacementEngine(Reference, PixelMask.All(Width, Height), settings));

        Assert.Equal(3, failure.Problems.Count);
        Assert.Equal("[displacement] window_px = 33 is out of range: an even number from 8 to 128.", failure.Problems[0]);
    }

    [Fact]
    public void Constructor_PictureSmallerThanAWindow_SaysSo()
    {
        var failure = Assert.Throws<InputDataException>(() =>
            new DisplacementEngine(Texture.Picture(24, 40), PixelMask.All(24, 40), new DisplacementSettings()));

        Assert.Equal("The picture of 24 x 40 px is smaller than one window of 32 x 32 px: choose a smaller window_px.", failure.Message);
    }

    private static VectorField Measure(GrayImage frame, DisplacementSettings settings, PlanarMotion? motion = null) =>
        new DisplacementEngine(Reference, PixelMask.All(Width, Height), settings)
            .Measure(frame, motion ?? PlanarMotion.Identity, CancellationToken.None);

    private static double Share(VectorField field, VectorFlags flag) => field.Flags.Count(f => f == flag) / (double)field.Grid.Count;

    private static float[] Trusted(VectorField field, float[] values) =>
        [.. values.Select((value, node) => field.Flags[node] == VectorFlags.None ? value : float.NaN)];
}
