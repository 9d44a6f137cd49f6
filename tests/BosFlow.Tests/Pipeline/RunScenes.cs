using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Optics;
using BosFlow.Pipeline;
using BosFlow.Registration;

namespace BosFlow.Tests.Pipeline;

/// <summary>Requests of small runs.</summary>
internal static class RunScenes
{
    public static ExperimentCase Case { get; } = new()
    {
        Footage = new FootageSettings { Frames = ["frames/*.png"] },
        Registration = new RegistrationSettings { Motion = MotionModel.Shift },
        Displacement = new DisplacementSettings { WindowPixels = 16, SpacingPixels = 8 },
        Rig = new RigGeometry { LensToFlowMetres = 1.2, FlowToBackgroundMetres = 0.8, BackgroundMetresPerPixel = 0.3e-3 },
    };

    public static Frame Frame(int index, GrayImage? image = null, string? failure = null) =>
        new(index, index / 50.0, $"frames/{index:000}.png", failure is null ? image ?? FakeStages.Picture(index) : null, failure);

    public static RunRequest Request(int count, MemoryStore store, int threads = 2, Func<int, Frame>? make = null, ExperimentCase? experiment = null) => new()
    {
        Case = experiment ?? Case,
        Footage = new MemoryFootage(FakeStages.Width, FakeStages.Height, count, make ?? (index => Frame(index))),
        FrameIndices = [.. Enumerable.Range(0, count)],
        Reference = new ReferenceSource([], "none", [], false),
        Store = store,
        Options = new RunOptions { Threads = threads },
    };
}
