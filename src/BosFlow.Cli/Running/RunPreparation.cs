using BosFlow.Cli.CaseFile;
using BosFlow.Footage;
using BosFlow.Media;
using BosFlow.Optics;
using BosFlow.Pipeline;
using BosFlow.Registration;
using BosFlow.Results.Boards;
using BosFlow.Results.Runs;

namespace BosFlow.Cli.Running;

/// <summary>Checks a run before any work; reads, and writes nothing.</summary>
public static class RunPreparation
{
    // Reading this much takes a few seconds, after which silence wants an explanation.
    private const long BytesWorthARemark = 1L << 30;

    /// <summary>Opens everything a run needs, in silence.</summary>
    /// <param name="settings">What was asked for.</param>
    /// <param name="cancellationToken">Stops between two files.</param>
    /// <exception cref="ConfigurationException">The case file cannot be used; holds every problem.</exception>
    /// <exception cref="InputDataException">A file cannot be used, a mask leaves the picture, or frames that do not exist are asked for.</exception>
    public static PreparedRun Prepare(RunSettings settings, CancellationToken cancellationToken) => Prepare(settings, _ => { }, cancellationToken);

    /// <summary>Opens everything a run needs.</summary>
    /// <param name="settings">What was asked for.</param>
    /// <param name="remark">Told of a step that takes long.</param>
    /// <param name="cancellationToken">Stops between two files.</param>
    /// <exception cref="ConfigurationException">The case file cannot be used; holds every problem.</exception>
    /// <exception cref="InputDataException">A file cannot be used, a mask leaves the picture, or frames that do not exist are asked for.</exception>
    public static PreparedRun Prepare(RunSettings settings, Action<string> remark, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        ArgumentNullException.ThrowIfNull(remark);
        LoadedCase loaded = CaseFileReader.Read(settings.CasePath);
        IFootage footage = FootageOpener.Open(loaded.Experiment.Footage, loaded.Folder, cancellationToken);
        FootageInfo info = footage.Info;
        loaded = LensOpener.Open(loaded, info);
        ExperimentCase experiment = loaded.Experiment;
        IReadOnlyList<int> indices = settings.Frames is null
            ? FrameSelection.Resolve(experiment.Footage, info)
            : FrameSelection.Parse(settings.Frames, info.FrameCount, "--frames");
        _ = RegionMask.Build(experiment.Region, info.Width, info.Height);
        DensityStep.Check(experiment, info);
        experiment = experiment with { Registration = ReadoutOpener.Complete(experiment, footage, settings.Threads, remark, cancellationToken) };
        ReferenceSource reference = ReferenceOpener.Open(experiment, loaded.Folder, footage, cancellationToken);
        BoardDocument? board = BoardOpener.Open(loaded);
        OpticalScale? scale = experiment.Rig is null ? null : OpticalScaling.From(experiment.Rig, experiment.Gas);
        long bytes = info.Files.Concat(reference.Files).Sum(file => new FileInfo(file).Length);
        if (bytes > BytesWorthARemark)
            remark($"Taking the fingerprint of {bytes >> 20} MB of footage.");
        var sources = SourceWatch.Begin(info.Files, [.. reference.Files, .. BoardOpener.Files(loaded), .. LensOpener.Files(loaded)]);
        var identity = RunIdentity.Of(experiment, info, reference.Files, scale, cancellationToken);
        RunSettings fitting = MemoryPlan.Fit(
            settings, GC.GetGCMemoryInfo().TotalAvailableMemoryBytes, threads => MemoryPlan.Expected(experiment, info, reference, threads), remark);
        IReadOnlyList<RunInput> boardInputs = InputHashing.Hash("board", BoardOpener.Files(loaded), cancellationToken);
        IReadOnlyList<RunInput> lensInputs = InputHashing.Hash("lens", LensOpener.Files(loaded), cancellationToken);
        return new PreparedRun
        {
            Settings = fitting,
            Case = loaded with { Experiment = experiment },
            OutputFolder = settings.OutputFolder ?? loaded.OutputFolder,
            Footage = footage,
            FrameIndices = indices,
            Sources = sources.With([.. identity.Inputs, .. boardInputs, .. lensInputs]),
            Reference = reference,
            Scale = scale,
            BoardScale = BoardOpener.SeenScale(loaded, board, reference, cancellationToken),
            Identity = identity with { Board = BoardOpener.Facts(board, boardInputs), Inputs = [.. identity.Inputs, .. boardInputs, .. lensInputs] },
        };
    }
}
