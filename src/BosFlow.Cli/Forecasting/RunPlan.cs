using System.Globalization;
using System.Text.Json.Nodes;
using BosFlow.Cli.Running;
using BosFlow.Footage;
using BosFlow.Pipeline;
using BosFlow.Results.Runs;

namespace BosFlow.Cli.Forecasting;

/// <summary>What a run would do and need: the words of a dry run.</summary>
internal sealed record RunPlan
{
    private readonly PreparedRun prepared;
    private readonly bool goesOn;
    private readonly long memoryBytes;

    private RunPlan(PreparedRun prepared, bool goesOn)
    {
        this.prepared = prepared;
        this.goesOn = goesOn;
        Disk = Disk.Of(prepared.OutputFolder);
        memoryBytes = MemoryPlan.Expected(prepared.Case.Experiment, prepared.Footage.Info, prepared.Reference, prepared.Settings.Threads);
    }

    /// <summary>What the run needs; null where it only gathers, or no frame could be measured for it.</summary>
    public RunForecast? Forecast { get; private init; }

    /// <summary>The disk of the results.</summary>
    public Disk Disk { get; }

    /// <summary>Why nothing can be foretold; null where something can, or nothing is to be measured.</summary>
    public string? Trouble { get; private init; }

    /// <summary>What the user should know, one sentence each.</summary>
    public IEnumerable<string> Warnings
    {
        get
        {
            foreach (string warning in prepared.Footage.Info.Warnings.Concat(BoardWords.Warnings(prepared)))
                yield return warning;
            if (Trouble is not null)
                yield return $"{Trouble} Time and disk cannot be foretold; give a range of frames that can be measured, with --frames.";
            if (Forecast?.Failures is { } failures)
                yield return $"Of the frames measured for the forecast, {failures}";
            if (Forecast is { } forecast && forecast.Bytes > Disk.FreeBytes)
                yield return $"The disk is too small: about {ByteText.Disk(forecast.Bytes)} will be written to {prepared.OutputFolder}, and {ByteText.Disk(Disk.FreeBytes)} are free there; make space, or choose another disk with --output.";
        }
    }

    /// <summary>Checks the folder and measures a few frames; writes nothing into the folder.</summary>
    /// <param name="prepared">The checked run.</param>
    /// <param name="clock">Clock of the times.</param>
    /// <param name="cancellationToken">Stops the measurement.</param>
    /// <exception cref="InputDataException">The folder holds something else.</exception>
    public static RunPlan Of(PreparedRun prepared, TimeProvider clock, CancellationToken cancellationToken)
    {
        var plan = new RunPlan(prepared, RunFolder.Check(prepared.OutputFolder, prepared.Identity, prepared.Settings.Restart));
        if (!prepared.Settings.Part.Measures || prepared.Settings.Part.Frames(prepared.FrameIndices).Count == 0)
            return plan;
        try
        {
            return plan with { Forecast = new ForecastMeasurement(prepared, clock).Measure(cancellationToken) };
        }
        catch (RunFailedException exception)
        {
            return plan with { Trouble = exception.Message };
        }
    }

    /// <summary>The plan for people.</summary>
    public IEnumerable<string> Lines()
    {
        FootageInfo info = prepared.Footage.Info;
        RunPart part = prepared.Settings.Part;
        IReadOnlyList<int> frames = part.Frames(prepared.FrameIndices);
        yield return $"Case:      {prepared.Case.File} is in order";
        yield return $"Footage:   {info.Description}, {info.Width} x {info.Height} px, {info.FrameCount} frames";
        string range = frames.Count > 0 ? $", {frames[0]} to {frames[^1]}" : string.Empty;
        string shard = part.Shard is { } one ? $" ({one})" : string.Empty;
        string present = Forecast is { } known && known.FramesToMeasure < frames.Count ? $"; {frames.Count - known.FramesToMeasure} of them are there already" : string.Empty;
        yield return part.Measures
            ? $"Measured:  {frames.Count} frames{range}{shard}{present}"
            : $"Gathered:  {frames.Count} frames{range}, all of which must be measured";
        yield return $"Reference: {prepared.Reference.Description}";
        if (prepared.Case.Experiment.Registration is { ReadoutSigmaSeconds: { } sigma } found)
            yield return FormattableString.Invariant($"Readout:   {found.ReadoutSeconds * 1e3:0.000} ms, standard uncertainty {sigma * 1e3:0.000} ms, found from the footage");
        yield return prepared.Scale is { } scale
            ? FormattableString.Invariant($"Scale:     {scale.BackgroundMetresPerPixel * 1e3:0.####} mm/px on the background; 1 px of displacement is {Math.Abs(scale.DensityGradientPathPerPixel):G4} kg m-3 along the ray")
            : "Scale:     none; displacements in px only (the case has no [rig])";
        foreach (string line in BoardWords.Lines(prepared))
            yield return line;
        foreach (string line in Needs())
            yield return line;
        yield return $"Results:   {(goesOn ? "would go on in" : "would go to")} {prepared.OutputFolder}; nothing was written";
    }

    /// <summary>The plan for machines.</summary>
    public JsonObject Document() => new()
    {
        ["case_file"] = prepared.Case.File,
        ["footage"] = prepared.Footage.Info.Description,
        ["width_px"] = prepared.Footage.Info.Width,
        ["height_px"] = prepared.Footage.Info.Height,
        ["frames"] = prepared.Settings.Part.Frames(prepared.FrameIndices).Count,
        ["reference"] = prepared.Reference.Description,
        ["readout_ms"] = prepared.Case.Experiment.Registration.ReadoutSeconds * 1e3,
        ["readout_sigma_ms"] = prepared.Case.Experiment.Registration.ReadoutSigmaSeconds * 1e3,
        ["board"] = BoardWords.Document(prepared),
        ["output_folder"] = prepared.OutputFolder,
        ["threads"] = prepared.Settings.Threads,
        ["frames_to_measure"] = Forecast?.FramesToMeasure,
        ["frames_timed"] = Forecast?.FramesTimed,
        ["seconds_per_frame"] = Forecast?.SecondsPerFrame,
        ["seconds"] = Forecast?.Seconds,
        ["sigma_seconds"] = Forecast?.SigmaSeconds,
        ["disk_bytes"] = Forecast?.Bytes,
        ["disk_free_bytes"] = Disk.FreeBytes,
        ["memory_bytes"] = memoryBytes,
        ["warnings"] = new JsonArray([.. Warnings.Select(warning => JsonValue.Create(warning))]),
    };

    private IEnumerable<string> Needs()
    {
        if (Forecast is { } forecast)
        {
            yield return $"Time:      {TimeText(forecast.Seconds, forecast.SigmaSeconds)}; {Pace(forecast)}";
            yield return $"Disk:      about {ByteText.Disk(forecast.Bytes)}, {ByteText.Disk(forecast.FrameBytes)} of it a frame; {ByteText.Disk(Disk.FreeBytes)} are free there";
        }

        yield return $"Memory:    about {ByteText.Memory(memoryBytes)} at its peak, with {Threads(prepared.Settings.Threads)}";
    }

    /// <summary>A time with the range in which it most probably lies, two standard uncertainties to each side.</summary>
    internal static string TimeText(double seconds, double sigma) =>
        $"about {DurationText.Of(TimeSpan.FromSeconds(seconds))} ({DurationText.Of(TimeSpan.FromSeconds(Math.Max(0, seconds - (2 * sigma))))} to {DurationText.Of(TimeSpan.FromSeconds(seconds + (2 * sigma)))})";

    private static string Pace(RunForecast forecast) => string.Create(
        CultureInfo.InvariantCulture,
        $"{forecast.FramesTimed} frames were measured for this: {forecast.SecondsPerFrame:0.000} s a frame with {Threads(forecast.Threads)}");

    private static string Threads(int count) => count == 1 ? "1 thread" : FormattableString.Invariant($"{count} threads");
}
