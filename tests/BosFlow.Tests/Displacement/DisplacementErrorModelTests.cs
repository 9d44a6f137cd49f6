using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Speckle.Boards;
using BosFlow.Synthesis;

namespace BosFlow.Tests.Displacement;

/// <summary>The expected error against the engine's own on rendered boards, and against closed forms.</summary>
public sealed class DisplacementErrorModelTests
{
    private const int Side = 288;
    private const double Scale = 1e-3;
    private const double Contrast = 0.6;

    // The error of a few hundred overlapping windows is known to some 5 %.
    private const double TenPercent = 0.10;

    [Theory]
    [InlineData(2.5, 0.3, 0.35, 0.03, 32, WindowShape.Constant)]
    [InlineData(3.0, 0.3, 0.20, 0.02, 32, WindowShape.Constant)]
    [InlineData(4.0, 0.3, 0.35, 0.01, 16, WindowShape.Constant)]
    [InlineData(5.0, 0.3, 0.35, 0.02, 32, WindowShape.Constant)]
    [InlineData(2.5, 0.3, 0.35, 0.03, 32, WindowShape.Quadratic)]
    [InlineData(4.0, 0.3, 0.35, 0.02, 32, WindowShape.Quadratic)]
    public void Of_APrintedBoard_IsTheEnginesErrorAndItsStatedSigma(double image, double blurShare, double coverage, double noise, int window, WindowShape shape)
    {
        var pattern = new ExpectedPattern { DiscPixels = image * Math.Sqrt(1 - blurShare), BlurPixels = image * Math.Sqrt(blurShare), Coverage = coverage, Contrast = Contrast, Noise = noise, ReferenceFrames = 8 };
        var settings = new DisplacementSettings { WindowPixels = window, SpacingPixels = window / 2, Shape = shape };

        ExpectedError expected = DisplacementErrorModel.Of(pattern, settings);
        (double rms, double stated) = Measure(pattern, settings);

        Assert.InRange(rms / expected.Sigma, 1 - TenPercent, 1 + TenPercent);
        Assert.InRange(stated / expected.Stated, 1 - TenPercent, 1 + TenPercent);
    }

    [Theory]
    [InlineData(5.0)]
    [InlineData(8.0)]
    public void PatternSpectrum_OfALoneGaussianSpot_HasHalfPiOfItsSquaredAmplitude(double blur)
    {
        // A disc much smaller than its blur is a Gaussian of amplitude D^2 / (8 s^2); pi A^2 / 2 whatever its size (derived; the pixel's averaging takes the rest).
        const double Disc = 0.2;
        double sigma = blur / 4;
        double amplitude = Disc * Disc / (8 * sigma * sigma);
        double pixel = Math.Pow((sigma * sigma) / ((sigma * sigma) + (1.0 / 12)), 2);

        PatternSpectrum spectrum = PatternSpectrum.Of(Disc, blur, 1e-4, InterpolationOrder.Quintic);

        Assert.Equal(1, spectrum.Energy / (Math.PI / 2 * amplitude * amplitude * pixel), 0.02);
    }

    [Fact]
    public void PatternSpectrum_OfLargeDots_HasHardlyAnyInterpolationError()
    {
        PatternSpectrum small = PatternSpectrum.Of(2, 1, 0.3, InterpolationOrder.Quintic);
        PatternSpectrum large = PatternSpectrum.Of(5, 3, 0.3, InterpolationOrder.Quintic);

        Assert.True(Math.Abs(large.BiasAmplitude) < 0.1 * Math.Abs(small.BiasAmplitude));
        Assert.True(large.Residual / large.Energy < 0.1 * small.Residual / small.Energy);
    }

    [Fact]
    public void Of_MoreNoise_IsProportional()
    {
        ExpectedError Of(double noise) => DisplacementErrorModel.Of(new ExpectedPattern { DiscPixels = 2.5, BlurPixels = 1.5, Coverage = 0.35, Contrast = Contrast, Noise = noise }, new DisplacementSettings());

        Assert.Equal(2, Of(0.1).Bound / Of(0.05).Bound, 1e-3);
        Assert.Equal(Of(0.1).Interpolation, Of(0.05).Interpolation, 1e-15);
    }

    [Fact]
    public void Response_OfTheEngine_IsThatOfTheRecordedValidation()
    {
        // docs/validation/sinusoid-response.csv: measured on rendered waves, 32 px windows every 16 px.
        var response = new EngineResponse(new DisplacementSettings());
        (double Wavelength, double Measured)[] recorded = [(48, 0.4354), (64, 0.7259), (80, 0.8637), (96, 0.9278), (128, 0.9749), (192, 0.9986), (256, 1.0005)];

        Assert.All(recorded, one => Assert.InRange(one.Measured - response.At(1 / one.Wavelength), -0.005, 0.03));
        Assert.Equal(1, response.At(0), 1e-12);
    }

    [Fact]
    public void Response_OfTheGaussianWindow_IsItsPlainSum()
    {
        var settings = new DisplacementSettings { Weighting = WindowWeighting.Gaussian, Passes = 1, CoarseWindowPixels = 128 };
        const double Frequency = 1 / 41.0;
        double sum = 0, all = 0;
        for (int i = 0; i < 32; i++)
        {
            double weight = Math.Exp(-(i - 15.5) * (i - 15.5) / 128);
            sum += weight * Math.Cos(2 * Math.PI * Frequency * (i - 15.5));
            all += weight;
        }

        double coarse = Math.Sin(Math.PI * 128 * Frequency) / (Math.PI * 128 * Frequency);
        Assert.Equal(coarse + (sum / all * (1 - coarse)), new EngineResponse(settings).At(Frequency), 1e-12);
    }

    private static (double Rms, double Stated) Measure(ExpectedPattern pattern, DisplacementSettings settings)
    {
        Board board = BoardMaker.Make(new BoardSettings { WidthMetres = 0.42, HeightMetres = 0.42, Sizes = [new DotSize(pattern.DiscPixels * Scale, 1)], Coverage = pattern.Coverage, Seed = 3, WithFiducials = false }, CancellationToken.None);
        Dot[] dots = [.. PrintedPattern.Seen(board, Scale, Side, Side, Contrast)];
        var speckle = new SpeckleSettings { Shape = DotShape.Disc, DotDiameterPixels = pattern.DiscPixels, BlurPixels = pattern.BlurPixels };
        var sensor = new SensorSettings { Background = 0.8, NoisePercent = 100 * pattern.Noise };
        GrayImage Picture(PlanarMotion motion, int frame) => SceneRenderer.Render(dots, motion, Side, Side, speckle, sensor, 7, frame, CancellationToken.None);
        GrayImage[] still = [.. Enumerable.Range(100, pattern.ReferenceFrames).Select(frame => Picture(PlanarMotion.Identity, frame))];
        float[] mean = [.. Enumerable.Range(0, Side * Side).Select(k => still.Average(picture => picture.Pixels[k]))];
        var engine = new DisplacementEngine(new GrayImage(Side, Side, mean, 255), PixelMask.All(Side, Side), settings, frames: pattern.ReferenceFrames);
        double squares = 0, stated = 0;
        int count = 0;
        foreach (double shift in (double[])[0.125, 0.375, 0.625, 0.875])
        {
            VectorField field = engine.Measure(Picture(PlanarMotion.Shift(shift, -shift), (int)(1000 * shift)), PlanarMotion.Identity, CancellationToken.None);
            for (int node = 0; node < field.U.Length; node++)
            {
                squares += Math.Pow(field.U[node] - shift, 2) + Math.Pow(field.V[node] + shift, 2);
                stated += Math.Pow(field.SigmaU[node], 2) + Math.Pow(field.SigmaV[node], 2);
                count += 2;
            }
        }

        return (Math.Sqrt(squares / count), Math.Sqrt(stated / count));
    }
}
