using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Validation;

/// <summary>How much of a sinusoidal displacement is recovered, by wavelength.</summary>
/// <remarks>Comparison: a top-hat window of W px averages a wave of wavelength L to sin(pi W / L) / (pi W / L); iterated deformation recovers more.</remarks>
public static class SinusoidStudy
{
    private const int Side = 512;
    private const double Amplitude = 0.5;
    private const string Study = "sinusoids";

    /// <summary>Carries the study out.</summary>
    /// <param name="wavelengths">Wavelengths, px.</param>
    /// <param name="settings">Settings of the engine.</param>
    /// <param name="cancellationToken">Stops between two wavelengths.</param>
    /// <returns>Figures and the table of all wavelengths.</returns>
    public static StudyResult Run(IReadOnlyList<double> wavelengths, DisplacementSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(wavelengths);
        ArgumentNullException.ThrowIfNull(settings);
        var speckle = new SpeckleSettings { DotDiameterPixels = 3, DotsPerPixel = 0.07, MarginPixels = 12, Seed = 22 };
        var sensor = new SensorSettings { Bits = 8, NoisePercent = 1 };
        IReadOnlyList<Dot> pattern = SpecklePattern.Draw(Side, Side, speckle);
        GrayImage Picture(IFlowField? flow, int frame) => SceneRenderer.Render(
            SceneRenderer.Displace(pattern, flow, cancellationToken), PlanarMotion.Identity, Side, Side, speckle.DotSigmaPixels, sensor, 6, frame, cancellationToken);

        var engine = new DisplacementEngine(Picture(null, 0), PixelMask.All(Side, Side), settings);
        var figures = new List<Figure>();
        var rows = new List<IReadOnlyList<double>>();
        foreach (double wavelength in wavelengths)
        {
            var wave = new SinusoidField(Amplitude, 0, wavelength);
            VectorField field = engine.Measure(Picture(wave, 1 + rows.Count), PlanarMotion.Identity, cancellationToken);
            (double response, double residual) = Compare(field, wave);
            double ratio = Math.PI * settings.WindowPixels / wavelength;
            double topHat = Math.Sin(ratio) / ratio;
            rows.Add([wavelength, response, residual, topHat]);
            // One percent allows for the noise of the slope itself.
            bool longEnough = wavelength >= 2 * settings.WindowPixels;
            figures.Add(new Figure(
                Study, FormattableString.Invariant($"response at {wavelength} px"), response, "1",
                longEnough ? topHat - 0.01 : null, longEnough ? 1.1 : null, FormattableString.Invariant($"one top-hat average: {topHat:F3}")));
        }

        var table = new StudyTable("sinusoid-response", "Response to sinusoids", ["wavelength (px)", "response (1)", "RMS of the rest (px)", "one top-hat average (1)"], rows);
        string description = FormattableString.Invariant(
            $"u = {Amplitude} px sin(2 pi x / wavelength); dots of 3 px, 0.07 dots/px, 8 bit, noise 1 %; {settings.WindowPixels} px windows every {settings.SpacingPixels} px. The response is the slope of measured u against true u.");
        return new StudyResult("Response to sinusoids", description, figures, [table]);
    }

    private static (double Response, double Residual) Compare(VectorField field, SinusoidField wave)
    {
        float[] truth = new float[field.U.Length];
        float[] measured = new float[field.U.Length];
        for (int i = 0; i < truth.Length; i++)
        {
            truth[i] = (float)wave.At(field.Grid.X(i % field.Grid.Columns), field.Grid.Y(i / field.Grid.Columns)).U;
            measured[i] = field.Flags[i] == VectorFlags.None ? field.U[i] : float.NaN;
        }

        LineFit line = LineFit.Of(truth, measured);
        double sum = 0;
        int count = 0;
        for (int i = 0; i < truth.Length; i++)
        {
            if (float.IsNaN(measured[i]))
                continue;
            double rest = measured[i] - line.Intercept - (line.Slope * truth[i]);
            sum += rest * rest;
            count++;
        }

        return (line.Slope, Math.Sqrt(sum / count));
    }
}
