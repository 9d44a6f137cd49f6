using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Validation;

/// <summary>Noise and resolution together: windows with a quadratic shape beside one top-hat window's mean, and beside windows of the same setting that fit a shift.</summary>
/// <remarks>
/// The top-hat window is the engine's own: each measured in a picture of its own, so that nothing is deformed within it and its result is the mean over it, by least squares. Its noise goes as one over its side and its wavelengths as its side
/// (docs/theory.md), so that noise times wavelength of a given response is one number for all top-hat windows, and a setting's product over it is the ratio of the noises at equal wavelength.
/// </remarks>
public static class QuadraticWindowsStudy
{
    private const string Study = "quadratic windows";
    private const int TilePixels = 48;
    private const int TopHatPixels = 32;
    private const int Shifts = 4;
    private const double Amplitude = 0.5;
    private const double Response = 0.9;
    private const double LargestRatio = 0.65;
    private const double ShiftDown = 0.37;

    // Waves along the diagonal are measured at wavelengths longer by this.
    private const double Longer = 1.1;

    private static readonly SpeckleSettings Speckle = new() { DotDiameterPixels = 3, DotsPerPixel = 0.07, MarginPixels = 12, Seed = 22 };
    private static readonly SensorSettings Sensor = new() { Bits = 8, NoisePercent = 2 };

    private delegate IEnumerable<(VectorField Field, double X, double Y)> Measurement(IFlowField flow, int frame);

    /// <summary>Carries the study out.</summary>
    /// <param name="tilesAlong">Isolated top-hat windows along each side of the picture.</param>
    /// <param name="constant">The setting with windows that fit a shift.</param>
    /// <param name="quadratic">The setting with quadratic windows.</param>
    /// <param name="cancellationToken">Stops between two pictures.</param>
    public static StudyResult Run(int tilesAlong, DisplacementSettings constant, DisplacementSettings quadratic, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(constant);
        ArgumentNullException.ThrowIfNull(quadratic);
        int side = tilesAlong * TilePixels;
        IReadOnlyList<Dot> pattern = SpecklePattern.Draw(side, side, Speckle);
        GrayImage Picture(IFlowField? flow, int frame) => SceneRenderer.Render(
            SceneRenderer.Displace(pattern, flow, cancellationToken), PlanarMotion.Identity, side, side, Speckle.DotSigmaPixels, Sensor, 6, frame, cancellationToken);
        GrayImage reference = Picture(null, 0);
        Measurement Whole(DisplacementSettings settings)
        {
            var engine = new DisplacementEngine(reference, PixelMask.All(side, side), settings);
            return (flow, frame) => [(engine.Measure(Picture(flow, frame), PlanarMotion.Identity, cancellationToken), 0, 0)];
        }

        var rows = new List<IReadOnlyList<double>>();
        Measurement isolated = Isolated(reference, Picture, tilesAlong, constant, cancellationToken), shifted = Whole(constant), curved = Whole(quadratic);
        Point topHat = Measure(isolated, [96, 110, 124, 138, 152], 0, rows), shift = Measure(shifted, [54, 60, 66, 72, 80], 1, rows), shaped = Measure(curved, [36, 40, 44, 48, 54, 60], 2, rows);
        FrontErrors front = HardSceneStudy.Front(quadratic, constant.WindowPixels, cancellationToken);
        Figure[] figures =
        [
            new(Study, "one top-hat window of 32 px: wavelength of response 0.9", topHat.Wavelength, "px", null, null, "3.99 windows by its transform"),
            new(Study, "one top-hat window of 32 px: the same along the diagonal", topHat.DiagonalWavelength, "px", null, null),
            new(Study, "one top-hat window of 32 px: random error of a component", topHat.Noise, "px", null, null),
            .. Of("finest, shift", shift, constant, topHat),
            .. Of("finest, quadratic", shaped, quadratic, topHat),
            new(Study, "finest, quadratic: noise over that of finest with a shift at equal wavelength", shaped.Product / shift.Product, "1", null, null),
            new(Study, "finest, quadratic: the same along the diagonal", shaped.DiagonalProduct / shift.DiagonalProduct, "1", null, null),
            new(Study, "finest, quadratic, strong plume, 5 px and strain 5 %: RMS error of u", HardSceneStudy.Plume(quadratic, cancellationToken), "px", null, null, "the scene of the hard scenes, in which finest with a shift has its noise too"),
            new(Study, "finest, quadratic, oblique front, 1.9 px over 8 px: slope of measured on true within 32 px of it", front.Slope, "1", 0.8, null),
            new(Study, "finest, quadratic, oblique front: RMS error of a component", front.Rms, "px", null, null, "adaptive windows are for fronts"),
        ];
        string description = FormattableString.Invariant(
            $"u = v = {Amplitude} px sin(2 pi s / wavelength) in two phases for the response, s along x and along the diagonal, {Shifts} uniform shifts for the noise; dots of 3 px, 0.07 dots/px, purely random, 8 bit, noise 2 %, {side} x {side} px. Top-hat window: {tilesAlong * tilesAlong} windows of {TopHatPixels} px, each measured in a picture of its own of {TilePixels} px a side, so that its result is its mean. Finest: {constant.WindowPixels} px windows that fit a shift, and {quadratic.WindowPixels} px windows that fit a quadratic in the last two passes, every {quadratic.SpacingPixels} px. The response is the slope of measured against true displacement; the wavelength is interpolated. A top-hat window's noise goes as 1 / side and its wavelength as its side: noise times wavelength is the same for all of them.");
        return new StudyResult("Quadratic windows: noise and resolution together", description, figures,
            [new StudyTable("quadratic-windows", "Response by wavelength", ["0 top hat, 1 shift, 2 quadratic", "wavelength along x (px)", "response (1)", "wavelength along the diagonal (px)", "response (1)"], rows)]);
    }

    private static Figure[] Of(string name, Point point, DisplacementSettings settings, Point topHat) =>
    [
        new(Study, $"{name}: wavelength of response 0.9", point.Wavelength, "px", null, null, By(settings)),
        new(Study, $"{name}: the same along the diagonal", point.DiagonalWavelength, "px", null, null),
        new(Study, $"{name}: random error of a component", point.Noise, "px", null, null),
        new(Study, $"{name}: noise over that of a top-hat window of equal wavelength", point.Product / topHat.Product, "1", null, settings.Shape == WindowShape.Quadratic ? LargestRatio : null, settings.Shape == WindowShape.Quadratic ? "0.60 for one step and evenly spread texture" : ""),
        new(Study, $"{name}: the same along the diagonal", point.DiagonalProduct / topHat.DiagonalProduct, "1", null, null),
    ];

    private static string By(DisplacementSettings settings)
    {
        var response = new EngineResponse(settings);
        double wavelength = settings.WindowPixels / 2.0;
        while (response.At(1 / wavelength) < Response)
            wavelength += 0.1;
        return FormattableString.Invariant($"{settings.WindowPixels} px windows; by the transform of the passes {wavelength:0.0}");
    }

    private static Measurement Isolated(GrayImage reference, Func<IFlowField?, int, GrayImage> picture, int tilesAlong, DisplacementSettings settings, CancellationToken cancellationToken)
    {
        DisplacementSettings isolated = settings with { WindowPixels = TopHatPixels, SpacingPixels = TilePixels, Windows = WindowSizing.Fixed };
        DisplacementEngine[] engines = [.. Enumerable.Range(0, tilesAlong * tilesAlong).Select(tile => new DisplacementEngine(IsolatedWindowsStudy.Tile(reference, TilePixels, tile % tilesAlong, tile / tilesAlong), PixelMask.All(TilePixels, TilePixels), isolated))];
        return (flow, frame) =>
        {
            GrayImage moved = picture(flow, frame);
            return engines.Select((engine, tile) =>
            {
                (int column, int row) = (tile % tilesAlong, tile / tilesAlong);
                return (engine.Measure(IsolatedWindowsStudy.Tile(moved, TilePixels, column, row), PlanarMotion.Identity, cancellationToken), (double)column * TilePixels, (double)row * TilePixels);
            });
        };
    }

    private static Point Measure(Measurement measure, double[] wavelengths, int kind, List<IReadOnlyList<double>> rows)
    {
        double[] along = [.. wavelengths.Select((wavelength, i) => ResponseTo(wavelength, 0, measure, (2 * i) + 1))];
        double[] diagonal = [.. wavelengths.Select((wavelength, i) => ResponseTo(Longer * wavelength, 45, measure, (2 * (wavelengths.Length + i)) + 1))];
        for (int i = 0; i < wavelengths.Length; i++)
            rows.Add([kind, wavelengths[i], along[i], Longer * wavelengths[i], diagonal[i]]);
        double variance = 0;
        for (int i = 0; i < Shifts; i++)
        {
            var (u, v) = ((double)i / Shifts, ShiftDown);
            ErrorStatistics ofU = new(), ofV = new();
            foreach ((VectorField field, _, _) in measure(LinearField.Uniform(u, v), 60 + i))
            {
                FieldErrors.AddU(ofU, field, _ => u);
                FieldErrors.AddV(ofV, field, _ => v);
            }

            variance += ((ofU.Deviation * ofU.Deviation) + (ofV.Deviation * ofV.Deviation)) / (2 * Shifts);
        }

        return new Point(Reached(wavelengths, along), Longer * Reached(wavelengths, diagonal), Math.Sqrt(variance));
    }

    // By a straight line between the two wavelengths about it.
    private static double Reached(double[] wavelengths, double[] responses)
    {
        int above = Array.FindIndex(responses, response => response >= Response);
        return above < 1 ? double.NaN
            : wavelengths[above - 1] + ((wavelengths[above] - wavelengths[above - 1]) * (Response - responses[above - 1]) / (responses[above] - responses[above - 1]));
    }

    // Both components, and two phases: what the dots of a window happen to see of a wave is then another.
    private static double ResponseTo(double wavelength, double direction, Measurement measure, int frame)
    {
        List<float> truth = [], measured = [];
        for (int phase = 0; phase < 2; phase++)
        {
            var wave = new SinusoidField(Amplitude, Amplitude, wavelength, direction, 90 * phase);
            foreach ((VectorField field, double x, double y) in measure(wave, frame + phase))
            {
                for (int node = 0; node < field.U.Length; node++)
                {
                    if (field.Flags[node] != VectorFlags.None)
                        continue;
                    FlowSample sample = wave.At(x + field.Grid.X(node % field.Grid.Columns), y + field.Grid.Y(node / field.Grid.Columns));
                    truth.AddRange([(float)sample.U, (float)sample.V]);
                    measured.AddRange([field.U[node], field.V[node]]);
                }
            }
        }

        return LineFit.Of([.. truth], [.. measured]).Slope;
    }

    /// <summary>What is measured of one kind of window.</summary>
    /// <param name="Wavelength">Of response 0.9 along an axis of the picture, px.</param>
    /// <param name="DiagonalWavelength">The same along the diagonal, px.</param>
    /// <param name="Noise">Random error of a component, px.</param>
    private sealed record Point(double Wavelength, double DiagonalWavelength, double Noise)
    {
        public double Product => Wavelength * Noise;

        public double DiagonalProduct => DiagonalWavelength * Noise;
    }
}
