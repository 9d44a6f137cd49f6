using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Validation;

/// <summary>Random error of windows that are measured each by itself, beside the Cramer-Rao bound: what the estimate itself costs, nothing smoothed across windows.</summary>
public static class IsolatedWindowsStudy
{
    // Tiles of the picture with one window each, wide enough for shifts and for what interpolation sees around it.
    private const int TilePixels = 48;
    private const int Shifts = 10;
    private const double ShiftDown = 0.37;
    private const int FlowOff = 8;
    private const int JointTilesAlong = 12;
    private const double ShakePixels = 3;

    // Dots of the coverage that 0.07 dots/px of 3 px have, whatever their size.
    private const double SquaredDiameterTimesDensity = 0.07 * 9;

    // The bound of a pattern that is not known beforehand leaves out waves shorter than two pixels, which smaller dots have.
    private const double LeastSampledDot = 3;

    private static readonly (double Percent, double Wanted)[] Noises = [(2, 1.09), (5, 1.03)];

    /// <summary>Carries the study out.</summary>
    /// <param name="dotPixels">e^-2 diameters of the dots, px.</param>
    /// <param name="tilesAlong">Windows along each side of the picture.</param>
    /// <param name="settings">Settings of the engine; windows of up to 32 px.</param>
    /// <param name="cancellationToken">Stops between two pictures.</param>
    public static StudyResult Run(IReadOnlyList<double> dotPixels, int tilesAlong, DisplacementSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(dotPixels);
        ArgumentNullException.ThrowIfNull(settings);
        const string Study = "isolated windows";
        DisplacementSettings isolated = settings with { SpacingPixels = TilePixels };
        var figures = new List<Figure>();
        var rows = new List<IReadOnlyList<double>>();
        foreach (double dot in dotPixels)
        {
            foreach ((double noise, double wanted) in Noises)
            {
                SensorSettings camera = Camera(noise), unlimited = camera with { Bits = 0 };
                (double random, double bound, double ofPixels) = Measure(dot, unlimited, tilesAlong, 1, isolated, cancellationToken);
                (double clipped, double clippedBound, _) = Measure(dot, camera, tilesAlong, 1, isolated, cancellationToken);
                (double joint, double jointBound, _) = Measure(dot, camera, Math.Min(tilesAlong, JointTilesAlong), FlowOff, isolated, cancellationToken);
                double ownBound = jointBound * Math.Sqrt((1 + (1.0 / FlowOff)) / 2), unknown = CramerRaoBound.OfUnknownPattern(Speckle(dot), unlimited);
                string scene = FormattableString.Invariant($"dots of {dot} px, noise {noise} %");
                bool isSampled = dot >= LeastSampledDot;
                figures.Add(new Figure(Study, $"{scene}: random error of u over the Cramer-Rao bound of the pixels", random / ofPixels, "1", null, Required(dot, noise, wanted), FormattableString.Invariant($"{wanted} is wanted")));
                figures.Add(new Figure(Study, $"{scene}: over that of the exact pattern", random / bound, "1", null, isSampled ? RequiredOfExact(noise) : null, isSampled ? FormattableString.Invariant($"{unknown:0.000} where the pattern is not known beforehand") : ""));
                figures.Add(new Figure(Study, $"{scene}: the same, overlapping dots cut off at white", clipped / clippedBound, "1", null, null));
                figures.Add(new Figure(Study, $"{scene}: the same with a joint reference", joint / jointBound, "1", null, 1, FormattableString.Invariant($"{joint / ownBound:0.000} of the bound with {FlowOff} reference pictures")));
                rows.Add([dot, noise, random, ofPixels, random / ofPixels, bound, random / bound, isSampled ? unknown : double.NaN, clipped / clippedBound, joint / jointBound, joint / ownBound]);
            }
        }

        string description = FormattableString.Invariant(
            $"{tilesAlong * tilesAlong} windows of {isolated.WindowPixels} px, each measured in a picture of its own of {TilePixels} px a side, so that nothing is smoothed across windows; {Shifts} shifts of 0 to 0.9 px to the right with {ShiftDown} px down; Gaussian dots of one coverage, purely random, noise in both pictures. Random is the scatter about the mean of each shift. The bound takes the derivative of the noise-free picture, which eleven neighbouring pixels tell; that of the exact pattern is less, since it holds what small dots have beyond the pixels. Both know the pattern; two noisy pictures do not, and no estimate from them alone can come nearer to the second than is said there (C. H. Knapp and G. C. Carter 1976). Dots overlap to more than white: the first figures are of a camera that holds them, the third of one of 8 bits that cuts them off, which no longer moves with them. The ratio has a standard error of {0.5 / Math.Sqrt(5) / tilesAlong:0.0 %}; it can fall below the bounds by that, and by what interpolation and derivatives see of the pixels around a window. The joint reference is fitted to {FlowOff} pictures of 8 bits shaken by up to {ShakePixels} px, {Math.Pow(Math.Min(tilesAlong, JointTilesAlong), 2)} windows; it may lie below the bound of two single pictures, since its noise is less.");
        return new StudyResult("Isolated windows and the Cramer-Rao bound", description, figures,
            [new StudyTable("isolated-windows", "Random error of u of isolated windows", ["dot (px)", "noise (%)", "random error u (px)", "Cramer-Rao bound of the pixels (px)", "ratio (1)", "that of the exact pattern (px)", "ratio (1)", "bound of an unknown pattern over it (1)", "ratio, cut off at white (1)", "ratio with joint reference (1)", "ratio of it to its own bound (1)"], rows)]);
    }

    // What is wanted, where it is met: two pictures do not tell what dots of 2 px have beyond the pixels.
    private static double? Required(double dot, double noise, double wanted) => dot < LeastSampledDot && noise < 5 ? null : wanted;

    private static double RequiredOfExact(double noise) => noise < 5 ? 1.09 : 1.08;

    private static SpeckleSettings Speckle(double dot) =>
        new() { DotDiameterPixels = dot, DotsPerPixel = SquaredDiameterTimesDensity / (dot * dot), ContrastFrom = 110.0 / 255, ContrastTo = 170.0 / 255, MarginPixels = 12, Seed = 29 };

    private static SensorSettings Camera(double noise) => new() { Background = 20.0 / 255, NoisePercent = noise };

    private static (double Random, double Bound, double OfPixels) Measure(double dot, SensorSettings sensor, int tilesAlong, int burst, DisplacementSettings settings, CancellationToken cancellationToken)
    {
        int side = TilePixels * tilesAlong;
        SpeckleSettings speckle = Speckle(dot);
        Dot[] dots = [.. SpecklePattern.Draw(side, side, speckle)];
        GrayImage Picture(PlanarMotion motion, int frame) => SceneRenderer.Render(dots, motion, side, side, speckle.DotSigmaPixels, sensor, 11, frame, cancellationToken);
        Reference? joint = burst > 1 ? Joint(burst, side, Picture, cancellationToken) : null;
        double[] variances = new double[Shifts];
        Parallel.For(0, Shifts, new ParallelOptions { CancellationToken = cancellationToken }, i =>
        {
            double shift = (double)i / Shifts;
            GrayImage reference = joint?.Image ?? Picture(PlanarMotion.Identity, 2 * i), frame = Picture(PlanarMotion.Shift(shift, ShiftDown), (2 * i) + 1);
            // As the picture of a run gives it: a tile alone is too small.
            var sampling = ReferenceSampling.Of(reference, PixelMask.All(side, side), new MatchConditions { Frames = burst, Interpolation = settings.Interpolation, IsMeasured = joint is not null });
            var errors = new ErrorStatistics();
            for (int tile = 0; tile < tilesAlong * tilesAlong; tile++)
            {
                (int column, int row) = (tile % tilesAlong, tile / tilesAlong);
                var engine = new DisplacementEngine(Tile(reference, TilePixels, column, row), PixelMask.All(TilePixels, TilePixels), settings, joint?.Underlying!.Part(column * TilePixels, row * TilePixels, TilePixels, TilePixels), burst, sampling);
                VectorField field = engine.Measure(Tile(frame, TilePixels, column, row), PlanarMotion.Identity, cancellationToken);
                errors.Add(field.Flags[0] == VectorFlags.None ? field.U[0] : double.NaN, shift, field.SigmaU[0]);
            }

            variances[i] = errors.Deviation * errors.Deviation;
        });
        NodeGrid own = DisplacementEngine.GridOf(TilePixels, TilePixels, settings), all = new(own.OriginX, own.OriginY, TilePixels, tilesAlong, tilesAlong);
        double bound = CramerRaoBound.Mean(dots, side, side, speckle.DotSigmaPixels, sensor, all, settings.WindowPixels, cancellationToken);
        double ofPixels = CramerRaoBound.OfPixels(dots, side, side, speckle.DotSigmaPixels, sensor, all, settings.WindowPixels, cancellationToken);
        return (Math.Sqrt(variances.Average()), bound, ofPixels);
    }

    // Numbers of frames that no other picture of the study has.
    private static Reference Joint(int count, int side, Func<PlanarMotion, int, GrayImage> picture, CancellationToken cancellationToken)
    {
        var shake = new SeededRandom(31);
        double Shake() => ShakePixels * ((2 * shake.NextUniform()) - 1);
        Frame[] burst = [.. Enumerable.Range(0, count).Select(k => new Frame(k, k, FormattableString.Invariant($"frame {k}"), picture(k == 0 ? PlanarMotion.Identity : PlanarMotion.Shift(Shake(), Shake()), (2 * Shifts) + k), null))];
        var source = new ReferenceSource(burst, "burst", [], false) { FrameCount = count };
        PixelMask all = PixelMask.All(side, side);
        return new ReferenceBuilder(new RegistrationSettings { Motion = MotionModel.Shift }, ReferenceCombination.Joint, Environment.ProcessorCount).Build(source, new RegionMask(all, all), cancellationToken);
    }

    internal static GrayImage Tile(GrayImage picture, int side, int column, int row)
    {
        float[] pixels = new float[side * side];
        for (int y = 0; y < side; y++)
            picture.Row((row * side) + y).Slice(column * side, side).CopyTo(pixels.AsSpan(y * side));
        return new GrayImage(side, side, pixels, picture.WhiteLevel);
    }
}
