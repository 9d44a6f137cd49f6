using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Validation;

/// <summary>What a reference gains that is fitted jointly to a burst of shaken flow-off frames, against one of them and against their mean.</summary>
public static class JointReferenceStudy
{
    private const int Side = 320;
    private const int FlowOff = 12;
    private const int Shifts = 24;
    private const double ShakePixels = 3;

    /// <summary>Carries the study out for dots of one size and one noise level.</summary>
    /// <param name="dotPixels">e^-2 diameter of the dots, px.</param>
    /// <param name="noisePercent">Gaussian noise of every picture, percent of full scale.</param>
    /// <param name="largestBias">Largest bias with the joint reference that passes, px; null = only reported.</param>
    /// <param name="largestRms">Largest total RMS with the joint reference that passes, px; null = only reported.</param>
    /// <param name="settings">Settings of the engine.</param>
    /// <param name="cancellationToken">Stops between two frames.</param>
    public static StudyResult Run(double dotPixels, double noisePercent, double? largestBias, double? largestRms, DisplacementSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        var speckle = new SpeckleSettings { DotDiameterPixels = dotPixels, DotsPerPixel = 0.63 / (dotPixels * dotPixels), ContrastFrom = 110.0 / 255, ContrastTo = 170.0 / 255, MarginPixels = 16, Seed = 41 };
        var sensor = new SensorSettings { Background = 20.0 / 255, NoisePercent = noisePercent, Bits = 8 };
        Dot[] dots = [.. SpecklePattern.Draw(Side, Side, speckle)];
        GrayImage Picture(double x, double y, int frame) =>
            SceneRenderer.Render(dots, PlanarMotion.Shift(x, y), Side, Side, speckle.DotSigmaPixels, sensor, 6, frame, cancellationToken);

        var shake = new SeededRandom(42);
        double Shake() => ShakePixels * ((2 * shake.NextUniform()) - 1);
        GrayImage[] burst = [.. Enumerable.Range(0, FlowOff).Select(k => k == 0 ? Picture(0, 0, 0) : Picture(Shake(), Shake(), k))];
        (double X, double Y)[] shifts = [.. Enumerable.Range(0, Shifts).Select(k => (((k + 0.5) / Shifts) - 0.5, Shake()))];
        GrayImage[] frames = [.. shifts.Select((shift, k) => Picture(shift.X, shift.Y, FlowOff + k))];

        Outcome Of(int count, ReferenceCombination combination) => Measure(burst[..count], combination, frames, shifts, settings, cancellationToken);
        Outcome one = Of(1, ReferenceCombination.Mean), mean = Of(FlowOff, ReferenceCombination.Mean), joint = Of(FlowOff, ReferenceCombination.Joint);
        string study = FormattableString.Invariant($"joint reference, dots of {dotPixels} px, noise {noisePercent} %");
        Figure[] figures =
        [
            new(study, "one frame: largest bias over the shifts", one.Bias, "px", null, null),
            new(study, "one frame: total RMS error of u", one.Rms, "px", null, null),
            new(study, FormattableString.Invariant($"mean of {FlowOff} frames: largest bias"), mean.Bias, "px", null, null),
            new(study, FormattableString.Invariant($"mean of {FlowOff} frames: total RMS error"), mean.Rms, "px", null, null),
            new(study, FormattableString.Invariant($"joint fit of {FlowOff} frames: largest bias"), joint.Bias, "px", null, largestBias),
            new(study, FormattableString.Invariant($"joint fit of {FlowOff} frames: total RMS error"), joint.Rms, "px", null, largestRms),
            new(study, "total error, joint over one frame", joint.Rms / one.Rms, "1", null, noisePercent > 0 ? 1.1 * Expected : null, FormattableString.Invariant($"{Expected:0.000} where noise alone counts: sqrt((1 + 1/{FlowOff}) / 2)")),
            new(study, "joint fit: share of errors within 1 sigma", joint.CoverageOneSigma, "1", null, null, "0.683 is honest"),
        ];
        string description = FormattableString.Invariant(
            $"{FlowOff} flow-off frames and {Shifts} frames, each shifted by up to {ShakePixels} px; dots of {dotPixels} px (e^-2 diameter), {speckle.DotsPerPixel:0.###} dots/px, purely random, {Side} x {Side} px, 8 bit, noise {noisePercent} %; shifts to the right from -0.5 to 0.5 px.");
        return new StudyResult(FormattableString.Invariant($"Joint reference, dots of {dotPixels} px, noise {noisePercent} %"), description, figures, []);
    }

    private static double Expected => Math.Sqrt((1 + (1.0 / FlowOff)) / 2);

    private static Outcome Measure(
        GrayImage[] burst, ReferenceCombination combination, GrayImage[] frames, (double X, double Y)[] shifts, DisplacementSettings settings, CancellationToken cancellationToken)
    {
        PixelMask all = PixelMask.All(Side, Side);
        var source = new ReferenceSource(burst.Select((picture, k) => new Frame(k, k, FormattableString.Invariant($"frame {k}"), picture, null)), "burst", [], false) { FrameCount = burst.Length };
        Reference reference = new ReferenceBuilder(new RegistrationSettings { Motion = MotionModel.Shift }, combination, Environment.ProcessorCount)
            .Build(source, new RegionMask(all, all), cancellationToken);
        var engine = new DisplacementEngine(reference.Image, all, settings, reference.Underlying, reference.FrameCount);
        var errors = new ErrorStatistics[frames.Length];
        Parallel.For(0, frames.Length, new ParallelOptions { CancellationToken = cancellationToken }, k =>
        {
            VectorField field = engine.Measure(frames[k], PlanarMotion.Shift(Math.Round(shifts[k].X), Math.Round(shifts[k].Y)), cancellationToken);
            errors[k] = new ErrorStatistics();
            for (int node = 0; node < field.U.Length; node++)
                errors[k].Add(field.Flags[node] == VectorFlags.None ? field.U[node] : double.NaN, shifts[k].X, field.SigmaU[node]);
        });
        var total = new ErrorStatistics();
        foreach (ErrorStatistics error in errors)
            total.Add(error);
        return new Outcome(errors.Max(error => Math.Abs(error.Bias)), total.Rms, total.CoverageOneSigma);
    }

    private sealed record Outcome(double Bias, double Rms, double CoverageOneSigma);
}
