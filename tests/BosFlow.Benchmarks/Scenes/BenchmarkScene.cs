using BosFlow.Footage;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Benchmarks.Scenes;

/// <summary>One reference, several flow frames, and the exact displacement of each at any place.</summary>
internal sealed class BenchmarkScene
{
    private readonly IReadOnlyList<IFlowField> fields;

    private BenchmarkScene(string name, int noisePercent, GrayImage reference, IReadOnlyList<GrayImage> frames, IReadOnlyList<IFlowField> fields)
    {
        Name = name;
        NoisePercent = noisePercent;
        Reference = reference;
        Frames = frames;
        this.fields = fields;
    }

    public string Name { get; }

    public int NoisePercent { get; }

    /// <summary>8-bit levels.</summary>
    public GrayImage Reference { get; }

    public IReadOnlyList<GrayImage> Frames { get; }

    /// <summary>Four uniform shifts.</summary>
    public static BenchmarkScene Shifts(int width, int height, int noisePercent) => Make(
        "uniform shifts",
        width,
        height,
        noisePercent,
        [LinearField.Uniform(0.2, 0.37), LinearField.Uniform(1.4, -0.63), LinearField.Uniform(2.7, 0.85), LinearField.Uniform(-0.6, 1.1)]);

    /// <summary>A smooth field and its opposite.</summary>
    public static BenchmarkScene Wavy(int width, int height, int noisePercent) =>
        Make("smooth field", width, height, noisePercent, [new WavyField(1), new WavyField(-1)]);

    /// <summary>Exact displacement of one frame at a place of the reference, px.</summary>
    public (double U, double V) Truth(int frame, double x, double y)
    {
        FlowSample sample = fields[frame].At(x, y);
        return (sample.U, sample.V);
    }

    // Dots of 3 px e^-2 diameter, 0.07 a pixel, peaks of 110 to 170 grey levels on 20: under-sampled on purpose, as in practice.
    private static BenchmarkScene Make(string name, int width, int height, int noisePercent, IFlowField[] fields)
    {
        var speckle = new SpeckleSettings
        {
            DotDiameterPixels = 3,
            DotsPerPixel = 0.07,
            ContrastFrom = 110.0 / 255,
            ContrastTo = 170.0 / 255,
            Seed = 20,
        };
        var sensor = new SensorSettings { Background = 20.0 / 255, NoisePercent = noisePercent };
        IReadOnlyList<Dot> pattern = SpecklePattern.Draw(width, height, speckle);
        GrayImage Picture(IFlowField? field, int frame) => SceneRenderer.Render(
            SceneRenderer.Displace(pattern, field, CancellationToken.None),
            PlanarMotion.Identity,
            width,
            height,
            speckle.DotSigmaPixels,
            sensor,
            seed: 7,
            frame,
            CancellationToken.None);
        return new BenchmarkScene(name, noisePercent, Picture(null, 0), [.. fields.Select((field, i) => Picture(field, i + 1))], fields);
    }
}
