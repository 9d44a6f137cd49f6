using BosFlow.Footage;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Tests.Registration;

/// <summary>A board of dots whose pictures are drawn with moved centres, never resampled.</summary>
internal sealed class SpeckleScene
{
    private readonly IReadOnlyList<Dot> dots;
    private readonly double dotSigma;
    private readonly double noisePercent;

    public SpeckleScene(int width, int height, double dotDiameter = 3, double noisePercent = 2, ulong seed = 7)
    {
        Width = width;
        Height = height;
        this.noisePercent = noisePercent;
        double density = 0.07 * Math.Min(1, 9 / (dotDiameter * dotDiameter));
        var settings = new SpeckleSettings
        {
            DotDiameterPixels = dotDiameter,
            DotsPerPixel = density,
            // As close to even spacing as random placing allows: the hardest pattern for coarse searches.
            MinimumGapPixels = Math.Sqrt(0.5 / density),
            MarginPixels = 120,
            Seed = seed,
        };
        dots = SpecklePattern.Draw(width, height, settings);
        dotSigma = settings.DotSigmaPixels;
    }

    public int Width { get; }

    public int Height { get; }

    public GrayImage Picture(int frame, PlanarMotion? motion = null, IFlowField? flow = null) => SceneRenderer.Render(
        SceneRenderer.Displace(dots, flow, CancellationToken.None),
        motion ?? PlanarMotion.Identity,
        Width,
        Height,
        dotSigma,
        new SensorSettings { NoisePercent = noisePercent },
        seed: 5,
        frame,
        CancellationToken.None);

    public PlanarMotion Similarity(double u, double v, double degrees, double scale) => KnownMotions.Similarity(u, v, degrees, scale, Width, Height);

    public PixelMask Everywhere => PixelMask.All(Width, Height);

    /// <summary>A plume about a vertical line in the middle: dots move towards the axis.</summary>
    public IFlowField Plume(double peak, double halfWidth) => new PlumeField(Width / 2.0, peak, halfWidth);

    private sealed class PlumeField(double axis, double peak, double halfWidth) : IFlowField
    {
        public FlowSample At(double x, double y)
        {
            double r = (x - axis) / halfWidth;
            // Largest at r = 1 / sqrt(2), where r exp(-r^2) is 0.429.
            return FlowSample.Prescribed(-peak * r * Math.Exp(-r * r) / 0.42888, 0.2 * peak * Math.Exp(-r * r));
        }
    }
}
