using BosFlow.Benchmarks.Reporting;
using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Media;
using BosFlow.Registration;

namespace BosFlow.Benchmarks.Speed;

/// <summary>What each stage of a run takes of a frame of a clip, ms of processor time.</summary>
internal sealed class VideoStages
{
    private const int TimedFrames = 6;

    private readonly PixelMask mask;
    private readonly GrayImage reference;
    private readonly GrayImage[] images;
    private readonly MotionEstimator estimator;
    private readonly List<(string Name, double Milliseconds)> common = [];

    /// <summary>Reads the clip and measures what does not depend on the quality.</summary>
    public VideoStages(VideoSpeed clip)
    {
        IFootage footage = FootageOpener.Open(new FootageSettings { Video = VideoSpeed.ClipName }, clip.Folder, CancellationToken.None);
        List<Frame> frames = Read(footage);
        reference = frames[0].Image!;
        images = [.. frames.Skip(1).Select(frame => frame.Image!)];
        mask = PixelMask.All(reference.Width, reference.Height);
        estimator = new MotionEstimator(reference, mask, new RegistrationSettings());
        var light = new ReferenceLight(reference, mask);
        common.Add(("checks of the frame", Each((image, _) => FrameQuality.Assess(image, mask))));
        common.Add(("registration", Each((image, _) => estimator.Estimate(image, CancellationToken.None))));
        common.Add(("comparison of the light", Each((image, _) => light.Compare(image, 0, 0))));
    }

    /// <summary>The stages with one quality, the longest first.</summary>
    /// <param name="quality">Name of the quality.</param>
    /// <param name="settings">Its settings.</param>
    /// <param name="frame">A further frame of a whole run: what no stage explains is told too.</param>
    public IReadOnlyList<(string Name, double Milliseconds)> With(string quality, DisplacementSettings settings, WholeRun frame)
    {
        var engine = new DisplacementEngine(reference, mask, settings);
        PlanarMotion[] motions = [.. images.Select(image => estimator.Estimate(image, CancellationToken.None).Motion.Planar)];
        VectorField field = engine.Measure(images[0], motions[0], CancellationToken.None);
        List<(string Name, double Milliseconds)> stages =
        [
            .. common,
            ($"displacement, {quality}", Each((image, i) => engine.Measure(image, motions[i], CancellationToken.None))),
            ("fit of the background's motion", Fit(field)),
        ];
        double rest = (1000 * frame.ProcessorSeconds) - stages.Sum(stage => stage.Milliseconds);
        stages.Add(("all else: netCDF-4, search for blur and repeated pictures, threads, memory", rest));
        return [.. stages.OrderByDescending(stage => stage.Milliseconds)];
    }

    // The start of ffmpeg is shared by all frames, as in a run.
    private List<Frame> Read(IFootage footage)
    {
        var first = new List<Frame>();
        double own = ProcessorTime.Own, children = ProcessorTime.OfEndedChildren;
        foreach (Frame frame in footage.Read([.. Enumerable.Range(0, 1 + VideoSpeed.Frames)], CancellationToken.None))
        {
            if (first.Count <= TimedFrames)
                first.Add(frame);
            else
                footage.GiveBack(frame.Image!);
        }

        common.Add(("decoding by ffmpeg", 1000 * (ProcessorTime.OfEndedChildren - children) / (1 + VideoSpeed.Frames)));
        common.Add(("reading from ffmpeg and conversion to grey levels", 1000 * (ProcessorTime.Own - own) / (1 + VideoSpeed.Frames)));
        return first;
    }

    private static double Fit(VectorField field)
    {
        int[] nodes = [.. Enumerable.Range(0, field.Grid.Count).Where(node => field.Flags[node] == VectorFlags.None)];
        double[] x = [.. nodes.Select(node => (double)field.Grid.X(node % field.Grid.Columns))], y = [.. nodes.Select(node => (double)field.Grid.Y(node / field.Grid.Columns))];
        double[] u = [.. nodes.Select(node => (double)field.U[node])], v = [.. nodes.Select(node => (double)field.V[node])];
        var fitter = new PlanarMotionFitter(MotionModel.Similarity);
        return Each(TimedFrames, _ => fitter.Fit(PlanarMotion.Identity, x, y, u, v));
    }

    private double Each(Action<GrayImage, int> stage) => Each(images.Length, i => stage(images[i], i));

    // Unmeasured at first, so that the compiler has done its work; then until there is enough to measure.
    private static double Each(int count, Action<int> stage)
    {
        const double EnoughSeconds = 0.5;
        for (int i = 0; i < 2 * count; i++)
            stage(i % count);
        double start = ProcessorTime.Own;
        int done = 0;
        for (; ProcessorTime.Own - start < EnoughSeconds || done % count != 0; done++)
            stage(done % count);
        return 1000 * (ProcessorTime.Own - start) / done;
    }
}
