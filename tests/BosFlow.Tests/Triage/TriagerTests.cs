using BosFlow.Speckle;
using BosFlow.Synthesis;
using BosFlow.Triage;

namespace BosFlow.Tests.Triage;

/// <summary>Takes with one planted fault each, and sound ones; exact pictures in memory, no compression.</summary>
public sealed class TriagerTests
{
    [Theory]
    [InlineData(101UL, 1.5)]
    [InlineData(102UL, 0)]
    [InlineData(103UL, 4)]
    public void Judge_SoundTake_IsUsableWithoutFinding(ulong seed, double shake)
    {
        TriageResult result = Judge(Sound(seed, shake));

        Assert.True(result.Findings.Count == 0, $"{string.Join(" ", result.Findings.Select(finding => finding.Sentence))} {result.Measures}");
        Assert.True(result.IsUsable);
        Assert.Equal((0, 31), Assert.Single(result.UsableRanges));
        Assert.InRange(result.Measures.DotPixels, 2.6, 3.6);
        Assert.InRange(result.Measures.NoiseFloor, 0.001, 0.05);
    }

    [Fact]
    public void Judge_PlantedFault_IsNamedFirstOrSecond()
    {
        SceneRecipe sound = Sound(201, 1.5);
        (TriageFault Fault, SceneRecipe Recipe)[] faulty =
        [
            (TriageFault.Blur, sound with { Speckle = sound.Speckle with { DotDiameterPixels = 7, ContrastFrom = 0.15, ContrastTo = 0.2 } }),
            (TriageFault.SmallDots, sound with { Speckle = sound.Speckle with { DotDiameterPixels = 1.1 } }),
            (TriageFault.FewDots, sound with { Speckle = sound.Speckle with { DotsPerPixel = 0.003 } }),
            (TriageFault.Saturation, sound with { Speckle = sound.Speckle with { ContrastFrom = 1, ContrastTo = 1 }, Sensor = sound.Sensor with { Background = 0.4 } }),
            (TriageFault.ExposureHunting, sound with { Light = new LightSettings { HuntingPercent = 40, HuntingFrames = 6 } }),
            (TriageFault.LostFrames, sound with { Order = new FrameOrder { LostBefore = [9, 20] } }),
            (TriageFault.LostFrames, sound with { Order = new FrameOrder { Repeated = [7, 18, 25] } }),
            (TriageFault.Smear, sound with { Vibration = sound.Vibration! with { ShiftRmsPixels = 4 }, Shutter = new ShutterSettings { ExposureSeconds = 0.012 } }),
            (TriageFault.Stabilisation, sound with { Vibration = sound.Vibration! with { ShiftRmsPixels = 3 }, Stabilisation = new StabilisationSettings() }),
        ];

        Assert.All(faulty, item =>
        {
            TriageResult result = Judge(item.Recipe);
            Assert.True(result.Findings.Take(2).Any(finding => finding.Fault == item.Fault), $"{item.Fault} is missing among: {string.Join(" ", result.Findings.Select(finding => finding.Sentence))} {result.Measures}");
        });
    }

    private static TriageResult Judge(SceneRecipe recipe) =>
        Triager.Judge(new TriageRequest { Footage = new SceneFootage(new SyntheticScene(recipe, CancellationToken.None)) }, null, CancellationToken.None);

    private static SceneRecipe Sound(ulong seed, double shake) => new()
    {
        Width = 384,
        Height = 256,
        FrameCount = 32,
        FlowOffCount = 32,
        Flow = new FlowRecipe.Shift(0, 0),
        Speckle = new SpeckleSettings { DotDiameterPixels = 3, DotsPerPixel = 0.03, Seed = seed, MarginPixels = 60 },
        Sensor = new SensorSettings { NoisePercent = 1 },
        Vibration = new VibrationSettings { LowHertz = 5, HighHertz = 50, ShiftRmsPixels = shake },
        Seed = seed,
    };
}
