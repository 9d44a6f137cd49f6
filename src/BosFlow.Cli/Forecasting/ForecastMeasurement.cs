using BosFlow.Cli.Running;
using BosFlow.Pipeline;
using BosFlow.Results.Runs;

namespace BosFlow.Cli.Forecasting;

/// <summary>Measures a few frames of a run in a temporary folder, as the run itself would, and deletes the folder.</summary>
internal sealed class ForecastMeasurement
{
    // Long enough for the runtime to compile what is hot and for a steady pace, short enough to wait for.
    private const double Seconds = 3;
    private const int FewestFramesEach = 4;
    private const int MostFrames = 400;

    // Log, timing and the line of the table that come with a frame.
    private const int LineBytes = 400;
    private const int ReferenceFrames = 4;

    private readonly PreparedRun prepared;
    private readonly TimeProvider clock;
    private readonly int threads;

    /// <summary>Prepares the measurement.</summary>
    /// <param name="prepared">The checked run.</param>
    /// <param name="clock">Clock of the times.</param>
    public ForecastMeasurement(PreparedRun prepared, TimeProvider clock)
    {
        this.prepared = prepared;
        this.clock = clock;
        threads = prepared.Settings.Threads;
    }

    /// <summary>Measures.</summary>
    /// <param name="cancellationToken">Stops; the temporary folder is deleted all the same.</param>
    /// <exception cref="RunFailedException">None of the frames could be measured.</exception>
    public RunForecast Measure(CancellationToken cancellationToken)
    {
        IReadOnlyList<int> asked = prepared.Settings.Part.Frames(prepared.FrameIndices);
        HashSet<int> present = prepared.Settings.Restart ? [] : FramesPresent();
        int[] pending = [.. asked.Where(frame => !present.Contains(frame))];
        IReadOnlyList<int> choice = pending.Length > 0 ? pending : asked;

        // The first go warms the program up and tells how many frames fill the time.
        Sample first = Run(FrameSample.Of(choice, threads + 1, prepared.Footage.Info), cancellationToken);
        double rough = first.Times.FramesSeconds / first.Frames;
        int count = (int)Math.Clamp(Seconds / rough, FewestFramesEach * threads, MostFrames);
        Sample sample = Run(FrameSample.Of(choice, count, prepared.Footage.Info), cancellationToken);
        (double seconds, double sigma) = sample.Times.Pace(threads);
        double reference = sample.Times.ReferenceSeconds * prepared.Reference.Later.Append(prepared.Reference).Sum(source => source.FrameCount) / Math.Max(1, Math.Min(ReferenceFrames, prepared.Reference.FrameCount));
        return new RunForecast
        {
            FramesToMeasure = pending.Length,
            FramesTimed = sample.Frames,
            Failures = FailureGroup.Of(sample.Outcome.FailedFrames) is [{ } group, ..] ? group.ToString() : null,
            Threads = threads,
            SecondsPerFrame = seconds,
            SigmaSecondsPerFrame = sigma,
            OtherSeconds = reference + (prepared.Settings.Part.Gathers ? sample.SummarySeconds : 0),
            FrameBytes = (sample.FrameBytes / sample.Frames) + LineBytes,
            OtherBytes = prepared.Settings.Part.Gathers ? sample.OtherBytes : 0,
        };
    }

    private Sample Run(IReadOnlyList<int> frames, CancellationToken cancellationToken)
    {
        DirectoryInfo temporary = Directory.CreateTempSubdirectory("bosflow-forecast-");
        try
        {
            string path = Path.Combine(temporary.FullName, "run");
            using RunFolder folder = RunFolder.Open(path, prepared.Identity, new RunOpening { FramesAtATime = threads }, clock, cancellationToken);
            var times = new StepTimes(clock);
            RunOutcome outcome = RunPipeline.Run(Request(frames, folder), RunStages.Standard, times, cancellationToken);
            double summarySeconds = times.SummarySeconds;
            FileInfo[] files = [.. new DirectoryInfo(path).EnumerateFiles("*", SearchOption.AllDirectories)];
            long frameBytes = files.Where(file => file.Directory!.Name == "frames").Sum(file => file.Length);
            return new Sample(frames.Count, outcome, times, summarySeconds, frameBytes, files.Sum(file => file.Length) - frameBytes);
        }
        finally
        {
            temporary.Delete(recursive: true);
        }
    }

    private RunRequest Request(IReadOnlyList<int> frames, IRunStore store) => new()
    {
        Case = prepared.Case.Experiment,
        Footage = prepared.Footage,
        FrameIndices = frames,
        // Many reference frames take their time in proportion.
        Reference = prepared.Reference with
        {
            Frames = prepared.Reference.Frames.Take(ReferenceFrames),
            FrameCount = Math.Min(ReferenceFrames, prepared.Reference.FrameCount),
            Later = [],
        },
        Board = prepared.Identity.Board,
        BoardScale = prepared.BoardScale,
        Store = store,
        Options = new RunOptions { Threads = threads },
    };

    // By their names alone: what is damaged is found when the run begins.
    private HashSet<int> FramesPresent()
    {
        string folder = Path.Combine(prepared.OutputFolder, "frames");
        return Directory.Exists(folder)
            ? [.. Directory.EnumerateFiles(folder, "*.nc").Select(Path.GetFileNameWithoutExtension).Where(name => int.TryParse(name, out _)).Select(name => int.Parse(name!, System.Globalization.CultureInfo.InvariantCulture))]
            : [];
    }

    private sealed record Sample(int Frames, RunOutcome Outcome, StepTimes Times, double SummarySeconds, long FrameBytes, long OtherBytes);
}
