using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Pipeline;
using BosFlow.Registration;
using BosFlow.Tests.Registration;
using Xunit.Abstractions;

namespace BosFlow.Tests.Pipeline;

/// <summary>The figure that registration is held to: what motion of the camera leaves of the noise floor, through the whole pipeline.</summary>
/// <remarks>
/// Holds for dots of 3 px and 2 % noise. It says nothing of pictures without noise: there a frame without motion is measured
/// without any interpolation and so without error, while one with motion keeps the interpolation error of such small dots, 0.0025 px.
/// </remarks>
public sealed class RegistrationFigureTests(ITestOutputHelper output)
{
    private const int Width = 512;
    private const int Height = 384;
    private static readonly SpeckleScene Scene = new(Width, Height);

    [Fact]
    public void Run_SimilarityOfTenPixelsHalfADegreeHalfAPercent_RaisesTheNoiseFloorByLessThanFifteenPercent()
    {
        RunOutcome still = Run((_, _) => PlanarMotion.Identity, out _);

        RunOutcome shaken = Run(Shake, out MemoryStore store);

        double ratioU = shaken.NoiseFloorU / still.NoiseFloorU;
        double ratioV = shaken.NoiseFloorV / still.NoiseFloorV;
        output.WriteLine(FormattableString.Invariant(
            $"Noise floor without motion {still.NoiseFloorU:0.00000} / {still.NoiseFloorV:0.00000} px, with motion {shaken.NoiseFloorU:0.00000} / {shaken.NoiseFloorV:0.00000} px, ratio {ratioU:0.000} / {ratioV:0.000}"));
        Assert.Empty(shaken.FailedFrames);
        Assert.InRange(ratioU, 0.8, 1.15);
        Assert.InRange(ratioV, 0.8, 1.15);
        foreach (FrameResult frame in store.Frames.Values)
        {
            PlanarMotion truth = Shake(frame.Index, Scene);
            Assert.InRange(VectorCloud.Distance(truth, frame.Motion, Width, Height), 0, 0.01);
        }
    }

    [Fact]
    public void Run_RealStagesWithOtherNumbersOfThreads_GivesTheSameBits()
    {
        Run(Shake, out MemoryStore one, threads: 1, frames: 2);

        Run(Shake, out MemoryStore three, threads: 3, frames: 2);

        Assert.Equal(one.Summary!.Statistics.MeanU, three.Summary!.Statistics.MeanU);
        Assert.Equal(one.Summary!.Statistics.SigmaMeanV, three.Summary!.Statistics.SigmaMeanV);
        Assert.Equal(one.Summary!.Reference.Image.Pixels.ToArray(), three.Summary!.Reference.Image.Pixels.ToArray());
        Assert.Equal(one.Summary!.Frames.Select(frame => frame.Motion), three.Summary!.Frames.Select(frame => frame.Motion));
    }

    // 10 px, 0.5 deg and 0.5 %, in every combination of signs.
    private static PlanarMotion Shake(int frame, SpeckleScene scene) => scene.Similarity(
        (frame & 1) == 0 ? 10 : -9.63,
        (frame & 2) == 0 ? -9.71 : 10,
        (frame & 1) == (frame & 2) / 2 ? 0.5 : -0.5,
        (frame & 2) == 0 ? 1.005 : 0.995);

    private static RunOutcome Run(Func<int, SpeckleScene, PlanarMotion> motion, out MemoryStore store, int threads = 2, int frames = 4)
    {
        store = new MemoryStore();
        Frame[] references = [.. Enumerable.Range(100, 2).Select(i => new Frame(i, 0, FormattableString.Invariant($"ref_{i}.png"), Scene.Picture(i), null))];
        var request = new RunRequest
        {
            Case = new ExperimentCase
            {
                Footage = new FootageSettings { Frames = ["frames/*.png"] },
                Region = new RegionSettings { Flow = [new PixelPolygon([(220, 100), (300, 100), (300, 284), (220, 284)])] },
                Registration = new RegistrationSettings { LargestShiftPixels = 32 },
                Displacement = new DisplacementSettings(),
            },
            Footage = new MemoryFootage(Width, Height, frames, index => RunScenes.Frame(index, Scene.Picture(index, motion(index, Scene)))),
            FrameIndices = [.. Enumerable.Range(0, frames)],
            Reference = new ReferenceSource(references, "two pictures", [], false),
            Store = store,
            Options = new RunOptions { Threads = threads },
        };
        return RunPipeline.Run(request, RunStages.Standard, null, CancellationToken.None);
    }
}
