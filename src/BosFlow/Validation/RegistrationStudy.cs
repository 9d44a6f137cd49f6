using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Pipeline;
using BosFlow.Registration;
using BosFlow.Synthesis;

namespace BosFlow.Validation;

/// <summary>What camera motion leaves behind: the noise floor on the undisturbed region with and without motion.</summary>
public static class RegistrationStudy
{
    private const double LargestRatio = 1.15;

    // Shift right and down (px), rotation (degrees counter-clockwise), change of scale (percent).
    private static readonly (double X, double Y, double Degrees, double Percent)[] Motions =
    [
        (10, -10, 0.5, 0.5), (-10, 10, -0.5, -0.5), (10, 10, -0.5, 0.5), (-10, -10, 0.5, -0.5), (3.3, -7.1, 0.21, -0.13), (-0.6, 0.4, -0.03, 0.02),
    ];

    /// <summary>Carries the study out for one noise level.</summary>
    /// <param name="noisePercent">Gaussian noise of every picture, percent of full scale.</param>
    /// <param name="isRequired">Whether the ratio of the noise floors has to meet the requirement, or is only reported.</param>
    /// <param name="settings">Settings of the engine.</param>
    /// <param name="cancellationToken">Interrupts the run.</param>
    public static StudyResult Run(double noisePercent, bool isRequired, DisplacementSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        SceneRecipe recipe = HotJetStudy.Recipe(Motions.Length) with { Width = 640, Height = 480, Shake = null, Sensor = new SensorSettings { NoisePercent = noisePercent } };
        var scene = new SyntheticScene(recipe with { Flow = ((FlowRecipe.Jet)recipe.Flow) with { NozzleX = 300, NozzleY = 500 } }, cancellationToken);
        double centreX = (recipe.Width - 1) / 2.0;
        double centreY = (recipe.Height - 1) / 2.0;
        PlanarMotion[] motions = [.. Motions.Select(m => CameraShake.Similarity(centreX, centreY, m.X, m.Y, m.Degrees, 1 + (0.01 * m.Percent)))];
        MemoryRunStore still = Measure(scene, Motions.Select(_ => PlanarMotion.Identity), settings, cancellationToken);
        MemoryRunStore moved = Measure(scene, motions, settings, cancellationToken);

        var rows = new List<IReadOnlyList<double>>();
        double stillSquares = 0, movedSquares = 0, corner = 0;
        for (int i = 0; i < Motions.Length; i++)
        {
            FrameResult before = still.ReadFrame(recipe.FlowOffCount + i);
            FrameResult after = moved.ReadFrame(recipe.FlowOffCount + i);
            double miss = CornerMiss(after.Motion, motions[i], recipe.Width, recipe.Height);
            stillSquares += (before.NoiseFloorU * before.NoiseFloorU) + (before.NoiseFloorV * before.NoiseFloorV);
            movedSquares += (after.NoiseFloorU * after.NoiseFloorU) + (after.NoiseFloorV * after.NoiseFloorV);
            corner = Math.Max(corner, miss);
            rows.Add([
                Motions[i].X, Motions[i].Y, Motions[i].Degrees, Motions[i].Percent, before.NoiseFloorU, before.NoiseFloorV,
                after.NoiseFloorU, after.NoiseFloorV, after.NoiseFloorU / before.NoiseFloorU, after.NoiseFloorV / before.NoiseFloorV, miss]);
        }

        string study = FormattableString.Invariant($"registration, noise {noisePercent} %");
        double stillFloor = Math.Sqrt(stillSquares / (2 * Motions.Length));
        double movedFloor = Math.Sqrt(movedSquares / (2 * Motions.Length));
        Figure[] figures =
        [
            new(study, "noise floor without motion, RMS over frames and components", stillFloor, "px", null, null),
            new(study, "noise floor with motion, RMS over frames and components", movedFloor, "px", null, null),
            new(study, "noise floor with motion over noise floor without", movedFloor / stillFloor, "1", null, isRequired ? LargestRatio : null),
            new(study, "largest error of the estimated motion at a corner of the picture", corner, "px", null, null),
        ];
        string[] columns =
        [
            "shift x (px)", "shift y (px)", "rotation (deg)", "scale (%)", "noise floor u still (px)", "noise floor v still (px)",
            "noise floor u moved (px)", "noise floor v moved (px)", "ratio u (1)", "ratio v (1)", "motion error at a corner (px)",
        ];
        string description = FormattableString.Invariant(
            $"The hot jet at {recipe.Width} x {recipe.Height} px, 8 bit, noise {noisePercent} %, filmed by a camera at rest and by one that moves by up to 10 px, 0.5 degrees and 0.5 %; the noise floor is the RMS of what is left on the undisturbed region, frame by frame with the same noise. At rest every dot keeps its phase on the pixels and interpolation costs nothing; any motion adds the error of interpolation.");
        return new StudyResult(
            FormattableString.Invariant($"Registration, noise {noisePercent} %"), description, figures,
            [new StudyTable(FormattableString.Invariant($"registration-noise-{noisePercent:0.##}"), "Noise floor with and without motion", columns, rows)]);
    }

    private static MemoryRunStore Measure(SyntheticScene scene, IEnumerable<PlanarMotion> motions, DisplacementSettings settings, CancellationToken cancellationToken)
    {
        SceneRecipe recipe = scene.Recipe;
        PlanarMotion[] all = [.. Enumerable.Repeat(PlanarMotion.Identity, recipe.FlowOffCount), .. motions];
        GrayImage[] pictures = [.. all.Select((motion, frame) => scene.Render(frame, motion, cancellationToken))];
        return SceneRun.Measure(scene, new PictureFootage(pictures, recipe.FrameRateHz), MotionModel.Similarity, settings, cancellationToken);
    }

    private static double CornerMiss(PlanarMotion estimated, PlanarMotion truth, int width, int height)
    {
        double largest = 0;
        foreach ((double x, double y) in ((double, double)[])[(0, 0), (width - 1, 0), (0, height - 1), (width - 1, height - 1)])
        {
            (double u, double v) = estimated.DisplacementAt(x, y);
            (double trueU, double trueV) = truth.DisplacementAt(x, y);
            largest = Math.Max(largest, Math.Sqrt(((u - trueU) * (u - trueU)) + ((v - trueV) * (v - trueV))));
        }

        return largest;
    }
}
