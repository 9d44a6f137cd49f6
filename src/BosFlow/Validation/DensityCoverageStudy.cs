using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Optics;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Validation;

/// <summary>Whether the stated uncertainty of a density is honest: shares of its errors within one and two sigma, over scenes of other patterns, places and noise.</summary>
public static class DensityCoverageStudy
{
    private const double LeastOneSigma = 0.63;
    private const double MostOneSigma = 0.73;
    private const double LeastTwoSigma = 0.92;
    private const double MostTwoSigma = 0.98;

    /// <summary>Carries the study out.</summary>
    /// <param name="shape">Planar: a hot blob between two planes; axisymmetric: a hot column whose axis is found.</param>
    /// <param name="scenes">Number of scenes, at least 1.</param>
    /// <param name="noisePercent">Noise of every picture, percent of full scale.</param>
    /// <param name="settings">Settings of the engine.</param>
    /// <param name="cancellationToken">Interrupts the run.</param>
    public static StudyResult Run(FlowShape shape, int scenes, double noisePercent, DisplacementSettings settings, CancellationToken cancellationToken)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(scenes, 1);
        ArgumentNullException.ThrowIfNull(settings);
        var all = new ErrorStatistics();
        double sigma = 0;
        for (int scene = 0; scene < scenes; scene++)
        {
            var made = new SyntheticScene(Recipe(shape, (ulong)(101 + scene), noisePercent), cancellationToken);
            MemoryRunStore store = SceneRun.Measure(made, new SceneFootage(made), MotionModel.None, settings, cancellationToken, Flow(shape));
            DensityResult density = store.Summary!.Density!;
            SceneTruth truth = made.TruthAt(density.Grid, cancellationToken);
            ScalarField field = FieldComparison.Field(density, "density");
            for (int node = 0; node < truth.U.Length; node++)
            {
                // Where the density is given it has no error.
                if (field.Sigma[node] > 0)
                    all.Add(density.Flags[node] == DensityFlags.None ? field.Values[node] : double.NaN, truth.DensityKgM3![node], field.Sigma[node]);
            }

            sigma += field.Sigma.Where(float.IsFinite).Average() / scenes;
        }

        string word = shape == FlowShape.Planar ? "planar" : "axisymmetric";
        string study = FormattableString.Invariant($"coverage, {word}, noise {noisePercent} %");
        Figure[] figures =
        [
            new(study, "share of errors within 1 sigma (0.683 is honest)", all.CoverageOneSigma, "1", LeastOneSigma, MostOneSigma),
            new(study, "share of errors within 2 sigma (0.954 is honest)", all.CoverageTwoSigma, "1", LeastTwoSigma, MostTwoSigma),
            new(study, "mean error", all.Bias, "kg m-3", null, null),
            new(study, "RMS error", all.Rms, "kg m-3", null, null),
            new(study, "mean stated sigma", sigma, "kg m-3", null, null),
            new(study, "values compared", all.Count, "1", null, null),
        ];
        string flow = shape == FlowShape.Planar ? "a round blob of 500 K between two planes 12 mm apart, 6.7 mm half-width; the density is known at the edges of the picture" : "a column of 600 K, 7 mm half-width, whose axis is found";
        string description = FormattableString.Invariant(
            $"{scenes} scenes of other patterns, places and noise: {flow}; the laboratory's camera, dots of 3 px, 8 bit, noise {noisePercent} %, 4 flow-off pictures and one with flow, through the whole pipeline. Scale, distances and gas are exact, so that the sigma is that of the displacement{(shape == FlowShape.Planar ? string.Empty : " and the axis")}.");
        return new StudyResult(FormattableString.Invariant($"Honesty of the density, {word}, noise {noisePercent} %"), description, figures, []);
    }

    private static FlowSettings Flow(FlowShape shape) => new()
    {
        Shape = shape,
        AmbientEdges = shape == FlowShape.Planar ? PictureEdge.Left | PictureEdge.Right | PictureEdge.Top | PictureEdge.Bottom : PictureEdge.None,
    };

    private static SceneRecipe Recipe(FlowShape shape, ulong seed, double noisePercent)
    {
        bool isPlanar = shape == FlowShape.Planar;
        var random = new SeededRandom(seed);
        (int width, int height) = isPlanar ? (640, 608) : (672, 256);
        double x = (width / 2.0) + (20 * (random.NextUniform() - 0.5));
        double y = (height / 2.0) + (20 * (random.NextUniform() - 0.5));
        return new SceneRecipe
        {
            Width = width,
            Height = height,
            FrameCount = 5,
            FlowOffCount = 4,
            Flow = isPlanar
                ? new FlowRecipe.SlabBlob(x, y, 6.7e-3, 500, 12e-3)
                : new FlowRecipe.Jet(x, y, 75 + (30 * random.NextUniform()), 7e-3, 0, 600),
            Rig = ReferenceRigs.Laboratory,
            // The scene's coefficient is the exact one.
            Gas = new GasSettings { GladstoneDaleRelativeSigma = 0 },
            Speckle = new SpeckleSettings { DotsPerPixel = 0.05, MarginPixels = 16, Seed = seed },
            Sensor = new SensorSettings { NoisePercent = noisePercent },
            Seed = seed,
        };
    }
}
