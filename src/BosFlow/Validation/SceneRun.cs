using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Pipeline;
using BosFlow.Registration;
using BosFlow.Synthesis;

namespace BosFlow.Validation;

/// <summary>Takes a scene's frames through the whole pipeline in memory.</summary>
internal static class SceneRun
{
    /// <summary>Runs the pipeline with the scene's flow-off frames as reference.</summary>
    /// <param name="scene">The scene the frames were rendered from.</param>
    /// <param name="footage">Its frames: flow-off frames first.</param>
    /// <param name="motion">Motion model of the registration.</param>
    /// <param name="settings">Settings of the engine.</param>
    /// <param name="cancellationToken">Interrupts the run.</param>
    /// <param name="flow">What is asked of the flow; null = path-integrated gradients only.</param>
    /// <param name="isCorrected">Whether the run knows the scene's lens and takes drift out.</param>
    /// <returns>The store with every frame and the summary.</returns>
    public static MemoryRunStore Measure(SyntheticScene scene, IFootage footage, MotionModel motion, DisplacementSettings settings, CancellationToken cancellationToken, FlowSettings? flow = null, bool isCorrected = true) =>
        Measure(scene, footage, new RegistrationSettings { Motion = motion }, settings, cancellationToken, flow, isCorrected);

    /// <summary>Runs the pipeline with the scene's flow-off frames as reference.</summary>
    /// <param name="scene">The scene the frames were rendered from.</param>
    /// <param name="footage">Its frames: flow-off frames first.</param>
    /// <param name="registration">How the motion is taken out.</param>
    /// <param name="settings">Settings of the engine.</param>
    /// <param name="cancellationToken">Interrupts the run.</param>
    /// <param name="flow">What is asked of the flow; null = path-integrated gradients only.</param>
    /// <param name="isCorrected">Whether the run knows the scene's lens and takes drift out.</param>
    /// <param name="combine">How the flow-off frames become the reference.</param>
    /// <returns>The store with every frame and the summary.</returns>
    public static MemoryRunStore Measure(SyntheticScene scene, IFootage footage, RegistrationSettings registration, DisplacementSettings settings, CancellationToken cancellationToken, FlowSettings? flow = null, bool isCorrected = true, ReferenceCombination combine = ReferenceCombination.Mean)
    {
        SceneRecipe recipe = scene.Recipe;
        int[] flowOff = [.. Enumerable.Range(0, recipe.FlowOffCount)];
        int flowEnd = footage.Info.FrameCount - recipe.FlowOffAfterCount;
        int[] flowOn = [.. Enumerable.Range(recipe.FlowOffCount, flowEnd - recipe.FlowOffCount)];
        int[] flowOffAfter = [.. Enumerable.Range(flowEnd, recipe.FlowOffAfterCount)];
        var store = new MemoryRunStore();
        var request = new RunRequest
        {
            Case = new ExperimentCase
            {
                Footage = new FootageSettings(),
                Region = new RegionSettings { Flow = FlowOutline.Of(scene) is { } outline ? [FlowOutline.AsFilmed(outline, recipe)] : [] },
                Registration = registration,
                Displacement = settings,
                Rig = recipe.Rig is null ? null : recipe.Rig with { PathLengthMetres = recipe.Flow.PathLengthMetres },
                Gas = recipe.Gas,
                Lens = isCorrected ? recipe.Lens : null,
                Reference = new ReferenceSettings { Combine = combine, Drift = isCorrected ? DriftHandling.Remove : DriftHandling.Report },
                Flow = flow ?? new FlowSettings(),
            },
            Footage = footage,
            FrameIndices = flowOn,
            Reference = Stretch(scene, footage, flowOff, cancellationToken) with { Later = flowOffAfter.Length == 0 ? [] : [Stretch(scene, footage, flowOffAfter, cancellationToken)] },
            Store = store,
        };
        RunPipeline.Run(request, RunStages.Standard, null, cancellationToken);
        return store;
    }

    /// <summary>RMS error of a component of the mean displacement over a whole run of a scene that is rendered while it is measured.</summary>
    /// <param name="recipe">The scene.</param>
    /// <param name="isCorrected">Whether the run knows the scene's lens and takes drift out.</param>
    /// <param name="settings">Settings of the engine.</param>
    /// <param name="cancellationToken">Interrupts the run.</param>
    /// <returns>px.</returns>
    public static double ErrorOfMean(SceneRecipe recipe, bool isCorrected, DisplacementSettings settings, CancellationToken cancellationToken)
    {
        var scene = new SyntheticScene(recipe, cancellationToken);
        MemoryRunStore store = Measure(scene, new SceneFootage(scene), MotionModel.Similarity, settings, cancellationToken, isCorrected: isCorrected);
        TruthComparison comparison = TruthComparison.Of(scene, store.Summary!, cancellationToken);
        return Math.Sqrt(((comparison.U.RmsError * comparison.U.RmsError) + (comparison.V.RmsError * comparison.V.RmsError)) / 2);
    }

    private static ReferenceSource Stretch(SyntheticScene scene, IFootage footage, int[] frames, CancellationToken cancellationToken) =>
        new(footage.Read(frames, cancellationToken), "flow-off frames of the scene", [], false) { FrameCount = frames.Length, MeanTime = frames.Average(scene.TimeSeconds) };
}
