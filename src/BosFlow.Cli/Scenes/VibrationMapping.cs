using BosFlow.Cli.CaseFile;
using BosFlow.Synthesis;

namespace BosFlow.Cli.Scenes;

/// <summary>Turns the keys of [vibration] and [shutter] into settings in SI units.</summary>
internal static class VibrationMapping
{
    /// <summary>The vibration; null without its section.</summary>
    /// <param name="values">Checked values.</param>
    public static VibrationSettings? Vibration(CaseValues values)
    {
        if (!VibrationKeys.VibrationSection.Keys.Any(values.Has))
            return null;
        var standard = new VibrationSettings();
        return new VibrationSettings
        {
            LowHertz = values.Or(VibrationKeys.Low, standard.LowHertz),
            HighHertz = values.Or(VibrationKeys.High, standard.HighHertz),
            ShiftRmsPixels = values.Or(VibrationKeys.Shift, 0),
            RotationRmsDegrees = values.Or(VibrationKeys.Rotation, 0),
            ScaleRmsPercent = values.Or(VibrationKeys.Scale, 0),
            Lines = [.. values.Or(VibrationKeys.LineFrequencies, []).Zip(values.Or(VibrationKeys.LineAmplitudes, []), (hertz, pixels) => new VibrationLine(hertz, pixels))],
            StillFrames = values.Or(VibrationKeys.StillFrames, 0),
        };
    }

    /// <summary>Readout and exposure; null without their section.</summary>
    /// <param name="values">Checked values.</param>
    public static ShutterSettings? Shutter(CaseValues values) => !VibrationKeys.ShutterSection.Keys.Any(values.Has) ? null : new ShutterSettings
    {
        ReadoutSeconds = values.Or(VibrationKeys.Readout, 0) / 1e3,
        ExposureSeconds = values.Or(VibrationKeys.Exposure, 0) / 1e3,
    };

    /// <summary>Finds what contradicts itself.</summary>
    /// <param name="values">Checked values.</param>
    /// <param name="problems">Takes the sentences.</param>
    public static void FindContradictions(CaseValues values, CaseProblems problems)
    {
        int frequencies = values.Or(VibrationKeys.LineFrequencies, []).Count;
        int amplitudes = values.Or(VibrationKeys.LineAmplitudes, []).Count;
        if (frequencies != amplitudes)
            problems.Add(values.LineOf(values.Has(VibrationKeys.LineAmplitudes) ? VibrationKeys.LineAmplitudes : VibrationKeys.LineFrequencies), $"vibration.line_hz names {frequencies} tones and vibration.line_px {amplitudes}; give one of each for every tone.");
        double low = values.Or(VibrationKeys.Low, new VibrationSettings().LowHertz);
        double high = values.Or(VibrationKeys.High, new VibrationSettings().HighHertz);
        if (low >= high)
            problems.Add(values.LineOf(values.Has(VibrationKeys.High) ? VibrationKeys.High : VibrationKeys.Low), FormattableString.Invariant($"the band of vibration.low_hz = {low} to vibration.high_hz = {high} is empty; give a higher high_hz."));
        double period = 1e3 / values.Or(SceneKeys.FrameRate, 60);
        foreach (var key in new[] { VibrationKeys.Readout, VibrationKeys.Exposure }.Where(key => values.Or(key, 0) > period))
            problems.Add(values.LineOf(key), FormattableString.Invariant($"{key.FullName} = {values.Or(key, 0)} is longer than the period of a frame; give at most {period:0.###} ms."));
    }
}
