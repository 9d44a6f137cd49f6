using System.Text;
using BosFlow.Camera;
using BosFlow.Cli.CommandLine;
using BosFlow.Cli.Lenses;
using BosFlow.Footage;
using BosFlow.Media;
using BosFlow.Media.Calibration;
using BosFlow.Results.Boards;
using BosFlow.Results.Files;
using BosFlow.Results.Runs;

namespace BosFlow.Cli.Calibrating;

/// <summary>Finds a lens from pictures: bosflow calibrate.</summary>
internal static class CalibrationAction
{
    private const int DocumentVersion = 1;

    /// <summary>Carries the calibration out.</summary>
    /// <returns>0 where the lens may be used, 3 where not; then no lens file is written.</returns>
    /// <exception cref="InputDataException">The pictures cannot be used.</exception>
    public static int Run(CalibrationRequest request, Talk talk, CommandEnvironment environment, CancellationToken cancellationToken)
    {
        IFootage footage = FootageOpener.Open(new FootageSettings { Frames = request.Pictures, Video = request.Video }, environment.WorkingDirectory, cancellationToken);
        int[] chosen = Spread(footage.Info.FrameCount, request.MostFrames);
        talk.Say($"Looking for the {request.Target.Description} in {chosen.Length} pictures.");
        var views = new List<TargetView>();
        var rejected = new List<(string, string)>();
        GrayImage? first = null;
        foreach (Frame frame in footage.Read(chosen, cancellationToken))
        {
            cancellationToken.ThrowIfCancellationRequested();
            IReadOnlyList<TargetPoint> points = frame.Image is null ? [] : TargetFinder.Find(request.Target, frame.Image);
            if (points.Count > 0)
                views.Add(new TargetView(frame.Source, points));
            else
                rejected.Add((frame.Source, frame.Failure ?? "the target was not found"));
            first ??= points.Count > 0 ? frame.Image : null;
        }

        if (first is null)
            throw new InputDataException($"The {request.Target.Description} was found in none of the {chosen.Length} pictures: check rows and columns, and that the whole target is in sight, sharp and evenly lit.");
        LensCalibration calibration = LensCalibrator.Calibrate(views, request.Kind, footage.Info.Width, footage.Info.Height, cancellationToken);
        rejected.AddRange(calibration.Rejected);
        calibration = calibration with { Rejected = rejected };
        var verdict = CalibrationVerdict.Of(calibration);
        IReadOnlyList<RunInput> inputs = InputHashing.Hash("calibration", footage.Info.Files, cancellationToken);
        Write(request, calibration, verdict, first, inputs, environment.Clock.GetUtcNow());
        Tell(request, calibration, verdict, talk);
        return verdict.Refusals.Count == 0 ? ExitCode.Done : ExitCode.DoneWithLosses;
    }

    private static void Write(
        CalibrationRequest request, LensCalibration calibration, CalibrationVerdict verdict, GrayImage picture, IReadOnlyList<RunInput> inputs, DateTimeOffset time)
    {
        using var files = new FileSet();
        ReadOnlyMemory<byte> coverage = CalibrationPicture.Draw(picture, calibration);
        files.Write(request.Coverage, stream => stream.Write(coverage.Span));
        if (verdict.Refusals.Count == 0)
            files.Write(request.Output, stream => stream.Write(Encoding.UTF8.GetBytes(LensFileWriter.Text(calibration, request.Target.Description, inputs, time))));
        files.Commit();
    }

    private static void Tell(CalibrationRequest request, LensCalibration calibration, CalibrationVerdict verdict, Talk talk)
    {
        foreach (string line in CalibrationWords.Lines(calibration, calibration.Rejected, request.PixelPitchMetres))
            talk.Result(line);
        foreach (string warning in verdict.Warnings)
            talk.Warn(warning);
        foreach (string refusal in verdict.Refusals)
            talk.Warn($"Not good enough: {refusal}");
        talk.Result(verdict.Refusals.Count == 0 ? $"Lens file:     {request.Output}" : "Lens file:     none was written, since the lens cannot be relied on");
        talk.Say($"What was seen where is drawn in {request.Coverage}: dots where points were found, lines a hundred times as long as they miss.");
        if (verdict.Refusals.Count == 0)
            talk.Say($"To use it, write into the case: [camera] lens = \"{Path.GetFileName(request.Output)}\"");
        talk.Document("calibrate", DocumentVersion, CalibrationWords.Document(calibration, calibration.Rejected, verdict, request));
    }

    private static int[] Spread(int count, int most)
    {
        int chosen = Math.Min(count, most);
        return [.. Enumerable.Range(0, chosen).Select(i => (int)((long)i * count / chosen))];
    }
}
