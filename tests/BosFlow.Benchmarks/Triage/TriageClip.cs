using BosFlow.Media;
using BosFlow.Speckle;
using BosFlow.Synthesis;
using BosFlow.Triage;

namespace BosFlow.Benchmarks.Triage;

/// <summary>A random take, sound or with one planted fault, and the judgement on its video.</summary>
/// <param name="Planted">What was planted; null = nothing.</param>
/// <param name="Shake">Vibration, px RMS along each axis.</param>
/// <param name="Result">The judgement.</param>
internal sealed record TriageClip(TriageFault? Planted, double Shake, TriageResult Result)
{
    private const int Width = 480;
    private const int Height = 320;
    private const int Frames = 64;
    private const double Rate = 60;

    // An action camera's 100 Mbit/s for 3840 x 2160 at 60 Hz.
    private const double BitsPerPixel = 0.2;

    // Every fifth sound take is filmed from a stand: it all but stands still, as a stabilised one does.
    private const int StandingEvery = 5;

    private static readonly TriageFault[] Faults =
    [
        TriageFault.Blur, TriageFault.ExposureHunting, TriageFault.Stabilisation, TriageFault.SmallDots,
        TriageFault.FewDots, TriageFault.LostFrames, TriageFault.Saturation, TriageFault.Smear,
    ];

    /// <summary>Whether the planted fault stands first or second; for a sound take whether nothing is found.</summary>
    public bool IsRight => Planted is TriageFault fault ? Result.Findings.Take(2).Any(finding => finding.Fault == fault) : Result.Findings.Count == 0;

    /// <summary>Draws, writes, reads and judges one.</summary>
    /// <param name="seed">Seed of all clips.</param>
    /// <param name="number">Which one; every second has a fault.</param>
    /// <param name="folder">Where the video stands for a moment.</param>
    public static TriageClip Judge(ulong seed, int number, string folder)
    {
        TriageFault? planted = number % 2 == 0 ? null : Faults[number / 2 % Faults.Length];
        SceneRecipe recipe = Recipe(planted, number / 2 % StandingEvery == 0, SeededRandom.PartSeed(seed, number, 0), number / 2 / Faults.Length);
        var scene = new SyntheticScene(recipe, CancellationToken.None);
        string path = Path.Combine(folder, "clip.mp4");
        var encoding = new VideoEncoding
        {
            MegabitsPerSecond = BitsPerPixel * Width * Height * Rate / 1e6,
            KeyFrameEvery = 30,
            PausesBefore = recipe.Order is { StampsTell: true } order ? order.LostBefore : [],
        };
        VideoFileWriter.Write(path, Enumerable.Range(0, Frames).Select(frame => scene.Render(frame, CancellationToken.None)), Rate, encoding, CancellationToken.None);
        Footage.IFootage footage = FootageOpener.Open(new Footage.FootageSettings { Video = path }, folder, CancellationToken.None);
        var request = new TriageRequest { Footage = footage, BitsPerPixel = 8.0 * new FileInfo(path).Length / ((double)Frames * Width * Height) };
        return new TriageClip(planted, recipe.Vibration!.ShiftRmsPixels, Triager.Judge(request, null, CancellationToken.None));
    }

    private static SceneRecipe Recipe(TriageFault? planted, bool stands, ulong seed, int variant)
    {
        var random = new SeededRandom(seed);
        double Between(double low, double high) => low + ((high - low) * random.NextUniform());
        var speckle = new SpeckleSettings { DotDiameterPixels = Between(2.5, 3.5), DotsPerPixel = Between(0.02, 0.05), ContrastFrom = 0.3, ContrastTo = 0.55, MarginPixels = 80, Seed = random.NextBits() };
        var sound = new SceneRecipe
        {
            Width = Width,
            Height = Height,
            FrameCount = Frames,
            FlowOffCount = Frames,
            FrameRateHz = Rate,
            Flow = new FlowRecipe.Shift(0, 0),
            Speckle = speckle,
            Sensor = new SensorSettings { NoisePercent = Between(0.5, 1.5) },
            Vibration = new VibrationSettings { LowHertz = 5, HighHertz = Between(40, 180), ShiftRmsPixels = Between(0.3, 3) },
            Shutter = new ShutterSettings { ReadoutSeconds = Between(0, 0.6) / Rate, ExposureSeconds = 0 },
            Seed = random.NextBits(),
        };
        return planted switch
        {
            TriageFault.Blur => sound with { Speckle = speckle with { DotDiameterPixels = Between(6, 8), ContrastFrom = 0.08, ContrastTo = 0.14 } },
            TriageFault.ExposureHunting => sound with { Light = new LightSettings { HuntingPercent = Between(30, 50), HuntingFrames = 8 } },
            TriageFault.Stabilisation => sound with { Vibration = sound.Vibration with { ShiftRmsPixels = Between(1.5, 4) }, Stabilisation = new StabilisationSettings { SmoothingFrames = Between(6, 15) } },
            TriageFault.SmallDots => sound with { Speckle = speckle with { DotDiameterPixels = Between(0.9, 1.2), DotsPerPixel = 0.05, ContrastFrom = 0.5, ContrastTo = 0.8 } },
            TriageFault.FewDots => sound with { Speckle = speckle with { DotsPerPixel = Between(0.0025, 0.004) } },
            TriageFault.LostFrames => sound with { Order = variant % 2 == 0 ? new FrameOrder { Repeated = [11, 31, 52] } : new FrameOrder { LostBefore = [11, 31, 52] } },
            TriageFault.Saturation => sound with { Speckle = speckle with { ContrastFrom = 0.9, ContrastTo = 1 }, Sensor = sound.Sensor with { Background = Between(0.3, 0.5) } },
            TriageFault.Smear => sound with { Vibration = sound.Vibration with { ShiftRmsPixels = Between(3, 6), HighHertz = Between(50, 100) }, Shutter = sound.Shutter with { ExposureSeconds = Between(0.6, 0.9) / Rate } },
            _ => stands ? sound with { Vibration = sound.Vibration with { ShiftRmsPixels = Between(0, 0.1) } } : sound,
        };
    }
}
