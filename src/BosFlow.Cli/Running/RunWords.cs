using System.Globalization;
using System.Text.Json.Nodes;
using BosFlow.Cli.CommandLine;
using BosFlow.Pipeline;
using BosFlow.Results.Report;

namespace BosFlow.Cli.Running;

/// <summary>The last words of a run, for people and for machines.</summary>
public static class RunWords
{
    private const int DocumentVersion = 1;
    private const int GroupsListed = 10;

    /// <summary>Tells what a run came to.</summary>
    /// <param name="talk">How to speak.</param>
    /// <param name="run">The run.</param>
    public static void Tell(Talk talk, FinishedRun run)
    {
        TellPeople(talk, run);
        talk.Document("run", DocumentVersion, Document(run));
    }

    /// <summary>Tells people what a run came to.</summary>
    /// <param name="talk">How to speak.</param>
    /// <param name="run">The run.</param>
    public static void TellPeople(Talk talk, FinishedRun run)
    {
        ArgumentNullException.ThrowIfNull(talk);
        ArgumentNullException.ThrowIfNull(run);
        foreach (string warning in run.Warnings)
            talk.Warn(warning);
        foreach (string line in Lines(run))
            talk.Result(line);
    }

    /// <summary>The content of the JSON document of a run.</summary>
    /// <param name="run">The run.</param>
    public static JsonObject Document(FinishedRun run)
    {
        ArgumentNullException.ThrowIfNull(run);
        RunOutcome outcome = run.Outcome;
        return new JsonObject
        {
            ["exit_code"] = run.Code,
            ["case_file"] = run.Prepared.Case.File,
            ["output_folder"] = run.Folder,
            ["report"] = run.ReportPath,
            ["log"] = run.LogPath,
            ["frames_total"] = outcome.FramesTotal,
            ["frames_measured"] = outcome.FramesMeasured,
            ["frames_resumed"] = outcome.FramesResumed,
            ["frames_failed"] = FramesWithReasons(outcome.FailedFrames),
            ["frames_rejected"] = FramesWithReasons(outcome.RejectedFrames),
            ["noise_floor_u_px"] = Number(outcome.NoiseFloorU),
            ["noise_floor_v_px"] = Number(outcome.NoiseFloorV),
            ["noise_floor_density_gradient_path_x_kg_m3"] = Number(DensityNoise(run, outcome.NoiseFloorU)),
            ["noise_floor_density_gradient_path_y_kg_m3"] = Number(DensityNoise(run, outcome.NoiseFloorV)),
            ["light"] = Light(outcome.Light),
            ["seconds"] = Math.Round(run.Time.TotalSeconds, 3),
            ["valid_fraction"] = Number(outcome.ValidFraction),
            ["density"] = Density(DensityFinding.Of(run.Density)),
            ["warnings"] = new JsonArray([.. run.Warnings.Select(warning => JsonValue.Create(warning))]),
        };
    }

    private static IEnumerable<string> Lines(FinishedRun run)
    {
        RunOutcome outcome = run.Outcome;
        string before = outcome.FramesResumed == outcome.FramesTotal
            ? "; all of them were there already"
            : outcome.FramesResumed > 0 ? $"; {outcome.FramesResumed} were there already" : string.Empty;
        yield return $"Frames:      {outcome.FramesMeasured} of {outcome.FramesTotal} measured{before}";
        foreach (string line in ListOf("Failed:     ", outcome.FailedFrames).Concat(ListOf("Left out:   ", outcome.RejectedFrames)))
            yield return line;
        if (outcome.FailedFrames.Count > 0)
            yield return "             their vectors are empty; frames.csv lists each of them. After mending the footage, measure all again with --restart or into another folder.";
        if (run.Prepared.FrameIndices.Count < run.Prepared.Footage.Info.FrameCount)
            yield return Invariant($"Not asked:   {run.Prepared.Footage.Info.FrameCount - run.Prepared.FrameIndices.Count} of the {run.Prepared.Footage.Info.FrameCount} frames of the footage ({Choice(run.Prepared)})");
        yield return Invariant($"Vectors:     {100 * outcome.ValidFraction:0.0} % valid (median over the frames)");
        yield return double.IsFinite(outcome.NoiseFloorU)
            ? Invariant($"Noise floor: {outcome.NoiseFloorU:0.0000} px in x, {outcome.NoiseFloorV:0.0000} px in y (1 sigma, median over the frames)")
            : "Noise floor: unknown; the warnings say why";
        if (run.Prepared.Scale is not null && double.IsFinite(outcome.NoiseFloorU))
            yield return Invariant($"             as path integral of the density gradient: {DensityNoise(run, outcome.NoiseFloorU):G3} kg m-3 in x, {DensityNoise(run, outcome.NoiseFloorV):G3} kg m-3 in y");
        if (DensityFinding.Of(run.Density) is { } density)
            yield return $"Density:     {density.Line}";
        if (outcome.Light is { } light)
            yield return $"Light:       {LightWords.Line(light)}";
        yield return $"Time:        {DurationText.Of(run.Time)}";
        yield return $"Results:     {run.Folder}";
        yield return $"Report:      {run.ReportPath}";
    }

    /// <summary>Frames with their reasons, as JSON.</summary>
    /// <param name="frames">The frames.</param>
    internal static JsonArray FramesWithReasons(IReadOnlyList<FailedFrame> frames) => new([.. frames.Select(frame => new JsonObject
    {
        ["frame"] = frame.Index,
        ["source"] = frame.Source,
        ["reason"] = frame.Reason,
    })]);

    private static IEnumerable<string> ListOf(string heading, IReadOnlyList<FailedFrame> frames)
    {
        IReadOnlyList<FailureGroup> groups = FailureGroup.Of(frames);
        foreach (FailureGroup group in groups.Take(GroupsListed))
            yield return $"{heading} {group}";
        if (groups.Count > GroupsListed)
            yield return $"             and {groups.Skip(GroupsListed).Sum(group => group.Frames.Count)} frames for {groups.Count - GroupsListed} more reasons";
    }

    private static string Choice(PreparedRun prepared) => prepared.Settings.Frames is { } range ? $"--frames {range}" : "[footage] in the case";

    private static JsonObject? Density(DensityFinding? density) => density is null ? null : new JsonObject
    {
        ["quantity"] = density.Quantity,
        ["unit"] = density.Unit,
        ["is_difference"] = density.IsDifference,
        ["main"] = Place(density.Main),
        ["temperature_k"] = Number(density.TemperatureKelvin),
        ["sigma_temperature_k"] = Number(density.SigmaTemperatureKelvin),
        ["lowest"] = Place(density.Lowest),
        ["highest"] = Place(density.Highest),
    };

    private static JsonObject? Light(LightVariation? light) => light is null ? null : new JsonObject
    {
        ["lowest_gain"] = Number(light.LowestGain),
        ["highest_gain"] = Number(light.HighestGain),
        ["relative_deviation"] = Number(light.RelativeDeviation),
        ["lowest_part"] = Number(light.LowestPart),
        ["corners_of_reference"] = Number(light.CornerLevel),
        ["glare_fraction"] = Number(light.GlareFraction),
        ["low_texture_fraction"] = Number(light.LowTextureFraction),
    };

    private static JsonObject? Place(FieldPlace? place) => place is null ? null : new JsonObject
    {
        ["x_px"] = Number(place.X),
        ["y_px"] = Number(place.Y),
        ["value"] = Number(place.Value),
        ["sigma"] = Number(place.Sigma),
    };

    private static double DensityNoise(FinishedRun run, double pixels) =>
        run.Prepared.Scale is { } scale ? Math.Abs(scale.DensityGradientPathPerPixel) * pixels : double.NaN;

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    // JSON has no NaN: what is not known is null.
    private static JsonValue? Number(double value) => double.IsFinite(value) ? JsonValue.Create(value) : null;
}
