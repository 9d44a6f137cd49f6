using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Validation;

/// <summary>Bias, noise and honesty of the stated sigma on uniform shifts from -2.5 to 2.5 px.</summary>
public static class UniformShiftStudy
{
    private const int Side = 384;
    private const double ShiftDown = 0.37;

    /// <summary>Carries the study out for one noise level.</summary>
    /// <param name="noisePercent">Gaussian noise of every picture, percent of full scale.</param>
    /// <param name="step">Distance between the shifts, px.</param>
    /// <param name="settings">Settings of the engine.</param>
    /// <param name="largestRms">Largest total RMS that passes, px; null = only reported.</param>
    /// <param name="cancellationToken">Stops between two shifts.</param>
    /// <returns>Figures and the table of all shifts.</returns>
    public static StudyResult Run(double noisePercent, double step, DisplacementSettings settings, double? largestRms, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        var speckle = new SpeckleSettings { DotDiameterPixels = 3, DotsPerPixel = 0.07, ContrastFrom = 110.0 / 255, ContrastTo = 170.0 / 255, MarginPixels = 12, Seed = 21 };
        var sensor = new SensorSettings { Background = 20.0 / 255, NoisePercent = noisePercent, Bits = 8 };
        Dot[] dots = [.. SpecklePattern.Draw(Side, Side, speckle)];
        GrayImage Picture(PlanarMotion motion, int frame) =>
            SceneRenderer.Render(dots, motion, Side, Side, speckle.DotSigmaPixels, sensor, 5, frame, cancellationToken);

        var engine = new DisplacementEngine(Picture(PlanarMotion.Identity, 0), PixelMask.All(Side, Side), settings);
        int count = (int)Math.Round(5 / step) + 1;
        var points = new ShiftPoint[count];
        Parallel.For(0, count, new ParallelOptions { CancellationToken = cancellationToken }, i =>
        {
            double shift = -2.5 + (i * 5.0 / (count - 1));
            VectorField field = engine.Measure(Picture(PlanarMotion.Shift(shift, ShiftDown), i + 1), PlanarMotion.Identity, cancellationToken);
            points[i] = ShiftPoint.Of(field, shift, ShiftDown);
        });
        double bound = CramerRaoBound.Mean(dots, Side, Side, speckle.DotSigmaPixels, sensor, engine.Grid, settings.WindowPixels, cancellationToken);
        return Result(noisePercent, settings, points, bound, largestRms);
    }

    private static StudyResult Result(double noisePercent, DisplacementSettings settings, ShiftPoint[] points, double bound, double? largestRms)
    {
        string study = FormattableString.Invariant($"uniform shifts, noise {noisePercent} %");
        var all = new ErrorStatistics();
        foreach (ShiftPoint point in points)
            all.Add(point.U);
        double bias = points.Max(point => Math.Abs(point.U.Bias));
        Figure[] figures =
        [
            new(study, "largest bias of u over the shifts", bias, "px", null, 0.005),
            new(study, "total RMS error of u", all.Rms, "px", null, largestRms),
            new(study, "99th percentile of |error of u|", all.AbsoluteQuantile(0.99), "px", null, null),
            new(study, "Cramer-Rao bound of u", bound, "px", null, null, "both pictures noisy, rounding included"),
            new(study, "bound over random error", bound / Math.Sqrt(points.Average(point => point.U.Deviation * point.U.Deviation)), "1", null, null, "efficiency"),
            new(study, "share of errors within 1 sigma", all.CoverageOneSigma, "1", null, null, "0.683 is honest"),
            new(study, "share of errors within 1.96 sigma", all.Coverage95, "1", null, null, "0.95 is honest"),
            new(study, "share of vectors not measured", all.Missing / (double)(all.Missing + all.Count), "1", null, 0.01),
        ];
        var table = new StudyTable(
            FormattableString.Invariant($"uniform-shift-noise-{noisePercent:0.##}"), $"Error of u for each {study}",
            ["shift (px)", "bias u (px)", "random error u (px)", "RMS error v (px)", "stated sigma u, mean (px)", "Cramer-Rao bound (px)"],
            [.. points.Select(point => (IReadOnlyList<double>)[point.Shift, point.U.Bias, point.U.Deviation, point.V.Rms, point.MeanSigma, bound])]);
        string description = FormattableString.Invariant(
            $"{points.Length} shifts to the right from -2.5 to 2.5 px with {ShiftDown} px down; dots of 3 px (e^-2 diameter), 0.07 dots/px, purely random, 8 bit, noise {noisePercent} % of full scale in both pictures; {settings.WindowPixels} px windows every {settings.SpacingPixels} px; {all.Count} vectors.");
        return new StudyResult(FormattableString.Invariant($"Uniform shifts, noise {noisePercent} %"), description, figures, [table]);
    }

    /// <summary>Errors at one shift.</summary>
    private sealed record ShiftPoint(double Shift, ErrorStatistics U, ErrorStatistics V, double MeanSigma)
    {
        public static ShiftPoint Of(VectorField field, double shiftU, double shiftV)
        {
            var u = new ErrorStatistics();
            var v = new ErrorStatistics();
            double sigma = 0;
            int count = 0;
            for (int i = 0; i < field.U.Length; i++)
            {
                bool measured = field.Flags[i] == VectorFlags.None;
                u.Add(measured ? field.U[i] : double.NaN, shiftU, field.SigmaU[i]);
                v.Add(measured ? field.V[i] : double.NaN, shiftV, field.SigmaV[i]);
                if (!measured)
                    continue;
                sigma += field.SigmaU[i];
                count++;
            }

            return new ShiftPoint(shiftU, u, v, sigma / count);
        }
    }
}
