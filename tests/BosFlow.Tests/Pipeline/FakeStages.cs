using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Pipeline;
using BosFlow.Registration;

namespace BosFlow.Tests.Pipeline;

/// <summary>Stages that invent a field from the grey levels of the frame, so that the joining is tested without the kernels.</summary>
internal static class FakeStages
{
    public const int Width = 96;
    public const int Height = 64;

    /// <summary>Stages that measure the motion plus a noise drawn from the first pixel, and whatever <paramref name="change"/> makes of it.</summary>
    public static RunStages Of(Func<GrayImage, VectorField, VectorField>? change = null, Func<GrayImage, MotionEstimate>? estimate = null, string? unusable = null) => new()
    {
        BuildReference = (_, _, _) => new Reference(Picture(0), 1, "one picture", [], []),
        CreateEstimator = (_, _, _) => new Estimator(estimate ?? (_ => new MotionEstimate(Motion, 1, null)), unusable),
        PlanGrid = (_, _, settings) => Engine.GridOf(settings),
        CreateEngine = (_, _, settings) => new Engine(settings, change ?? ((_, field) => field)),
    };

    public static PlanarMotion Motion { get; } = PlanarMotion.Shift(1.5, -2.25);

    /// <summary>A picture with texture whose first pixel carries a number.</summary>
    public static GrayImage Picture(int number)
    {
        var random = new Random(number);
        float[] pixels = new float[Width * Height];
        for (int i = 0; i < pixels.Length; i++)
            pixels[i] = ((i / 3) + (i / Width / 3)) % 2 == 0 ? 60 : 140 + random.Next(20);
        pixels[0] = number;
        return new GrayImage(Width, Height, pixels, 255);
    }

    private sealed class Estimator(Func<GrayImage, MotionEstimate> estimate, string? unusable) : IMotionEstimator
    {
        public string? Unusable => unusable;

        public MotionEstimate Estimate(GrayImage frame, CancellationToken cancellationToken) => estimate(frame);
    }

    private sealed class Engine(DisplacementSettings settings, Func<GrayImage, VectorField, VectorField> change) : IDisplacementStage
    {
        public NodeGrid Grid { get; } = GridOf(settings);

        public SamplingFacts Sampling => new() { DotPixels = 3, BiasTakenOffU = 0, BiasTakenOffV = 0, BiasLeft = 0.004 };

        public static NodeGrid GridOf(DisplacementSettings settings) => new(7.5, 7.5, settings.SpacingPixels, 11, 7);

        public VectorField Measure(GrayImage frame, IPictureMotion predictor, CancellationToken cancellationToken)
        {
            var random = new Random((int)frame[0, 0]);
            float[] Filled(Func<float> value) => [.. Enumerable.Range(0, Grid.Count).Select(_ => value())];
            var field = new VectorField
            {
                Grid = Grid,
                U = Filled(() => 1.5f + (0.02f * (random.NextSingle() - 0.5f))),
                V = Filled(() => -2.25f + (0.02f * (random.NextSingle() - 0.5f))),
                SigmaU = Filled(() => 0.006f),
                SigmaV = Filled(() => 0.006f),
                Flags = new VectorFlags[Grid.Count],
                Correlation = Filled(() => 0.95f),
                PeakRatio = Filled(() => 4f),
            };
            return change(frame, field);
        }

        public void Reuse(VectorField field)
        {
        }
    }
}
