using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Validation;

/// <summary>Whether the stated sigma of a vector is that of its errors, for several sizes of dots and levels of noise.</summary>
public static class SigmaStudy
{
    private const int Side = 448;
    private const int Patterns = 8;
    private const int ShiftsEach = 2;
    private const double LeastOneSigma = 0.65;
    private const double MostOneSigma = 0.71;
    private const double LeastTwoSigma = 0.93;
    private const double MostTwoSigma = 0.97;

    // Dots of the coverage that 0.07 dots/px of 3 px have, whatever their size.
    private const double SquaredDiameterTimesDensity = 0.07 * 9;

    private static readonly SinusoidField Wave = new(0.15, -0.1, 320, 30, 20);

    /// <summary>Carries the study out for one setting of the engine.</summary>
    /// <param name="quality">Name of the setting.</param>
    /// <param name="settings">The setting.</param>
    /// <param name="dotPixels">e^-2 diameters of the dots, px.</param>
    /// <param name="noisePercent">Levels of noise, percent of full scale.</param>
    /// <param name="isRequired">Whether figures are required of dots of a diameter.</param>
    /// <param name="cancellationToken">Stops between two pictures.</param>
    public static StudyResult Run(
        string quality, DisplacementSettings settings, IReadOnlyList<double> dotPixels, IReadOnlyList<double> noisePercent, Func<double, bool> isRequired, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        ArgumentNullException.ThrowIfNull(dotPixels);
        ArgumentNullException.ThrowIfNull(noisePercent);
        ArgumentNullException.ThrowIfNull(isRequired);
        string study = $"honesty of sigma, {quality}";
        var figures = new List<Figure>();
        var rows = new List<IReadOnlyList<double>>();
        foreach (double dot in dotPixels)
        {
            foreach (double noise in noisePercent)
            {
                ErrorStatistics errors = Measure(dot, noise, settings, cancellationToken);
                string name = FormattableString.Invariant($"dots of {dot} px, noise {noise} %: share of errors within");
                bool required = isRequired(dot);
                figures.Add(new Figure(study, $"{name} 1 sigma", errors.CoverageOneSigma, "1", required ? LeastOneSigma : null, required ? MostOneSigma : null));
                figures.Add(new Figure(study, $"{name} 2 sigma", errors.CoverageTwoSigma, "1", required ? LeastTwoSigma : null, required ? MostTwoSigma : null));
                rows.Add([dot, noise, errors.Rms, errors.StatedRms, errors.CoverageOneSigma, errors.CoverageTwoSigma]);
            }
        }

        string description = FormattableString.Invariant(
            $"{Patterns * ShiftsEach} pictures for each row, of {Patterns} patterns, shifted by other fractions of a pixel along x and y and by a wave of 0.15 px and 320 px; Gaussian dots of one coverage, purely random, 8 bit, noise in both pictures; {settings.WindowPixels} px windows every {settings.SpacingPixels} px. An honest sigma has 0.683 and 0.954. Where nothing is required, 0.65 to 0.71 and 0.93 to 0.97 are wanted.");
        string file = "sigma-" + quality;
        return new StudyResult($"Honesty of sigma, {quality}", description, figures,
            [new StudyTable(file, $"Errors and stated sigma, {quality}", ["dot (px)", "noise (%)", "RMS error (px)", "stated sigma, RMS (px)", "share within 1 sigma (1)", "share within 2 sigma (1)"], rows)]);
    }

    private static ErrorStatistics Measure(double dot, double noise, DisplacementSettings settings, CancellationToken cancellationToken)
    {
        var fields = new (VectorField Field, double U, double V)[Patterns * ShiftsEach];
        Parallel.For(0, Patterns, new ParallelOptions { CancellationToken = cancellationToken }, pattern => Measure(pattern, dot, noise, settings, fields.AsSpan(pattern * ShiftsEach, ShiftsEach), cancellationToken));
        var errors = new ErrorStatistics();
        foreach ((VectorField field, double u, double v) in fields)
        {
            Func<int, (double U, double V)> wave = FieldErrors.Truth(field, Wave);
            FieldErrors.Add(errors, field, node => (u + wave(node).U, v + wave(node).V));
        }

        return errors;
    }

    // Frames of one pattern share the noise of its reference: several patterns tell more than as many frames of one.
    private static void Measure(int pattern, double dot, double noise, DisplacementSettings settings, Span<(VectorField Field, double U, double V)> fields, CancellationToken cancellationToken)
    {
        var speckle = new SpeckleSettings { DotDiameterPixels = dot, DotsPerPixel = SquaredDiameterTimesDensity / (dot * dot), ContrastFrom = 110.0 / 255, ContrastTo = 170.0 / 255, MarginPixels = 12, Seed = 23 + (ulong)pattern };
        var sensor = new SensorSettings { Background = 20.0 / 255, NoisePercent = noise };
        Dot[] still = [.. SpecklePattern.Draw(Side, Side, speckle)];
        Dot[] moved = SceneRenderer.Displace(still, Wave, cancellationToken);
        GrayImage Picture(Dot[] dots, PlanarMotion motion, int frame) => SceneRenderer.Render(dots, motion, Side, Side, speckle.DotSigmaPixels, sensor, 9 + (ulong)pattern, frame, cancellationToken);
        var engine = new DisplacementEngine(Picture(still, PlanarMotion.Identity, 0), PixelMask.All(Side, Side), settings);
        for (int k = 0; k < ShiftsEach; k++)
        {
            int i = (pattern * ShiftsEach) + k;
            double u = 0.5 + ((double)i / fields.Length / Patterns), v = 0.3 + (5.0 * i / fields.Length / Patterns % 1);
            fields[k] = (engine.Measure(Picture(moved, PlanarMotion.Shift(u, v), k + 1), PlanarMotion.Identity, cancellationToken), u, v);
        }
    }
}
