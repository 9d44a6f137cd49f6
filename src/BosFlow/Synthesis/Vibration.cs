using BosFlow.Speckle;

namespace BosFlow.Synthesis;

/// <summary>Motion of the view by a vibration spectrum, known exactly at any time: a sum of sinusoids about the view at rest.</summary>
/// <remarks>
/// Each parameter's band is cut into <see cref="BandTones"/> equal parts with one tone each, its frequency uniform within the part and its phase uniform; all have the
/// amplitude RMS sqrt(2 / tones), so that their sum has the given RMS over a long time. The sum of many such tones is nearly Gaussian (S. O. Rice 1944,
/// doi 10.1002/j.1538-7305.1944.tb00874.x).
/// </remarks>
public sealed class Vibration
{
    /// <summary>Tones of each parameter's band.</summary>
    public const int BandTones = 32;

    private readonly Tone[] shiftX;
    private readonly Tone[] shiftY;
    private readonly Tone[] degrees;
    private readonly Tone[] scale;

    /// <summary>Draws a motion.</summary>
    /// <param name="settings">The spectrum.</param>
    /// <param name="seed">Seed of frequencies and phases.</param>
    public Vibration(VibrationSettings settings, ulong seed)
    {
        ArgumentNullException.ThrowIfNull(settings);
        var random = new SeededRandom(seed);
        shiftX = [.. Band(settings, settings.ShiftRmsPixels, random), .. Lines(settings, random)];
        shiftY = [.. Band(settings, settings.ShiftRmsPixels, random), .. Lines(settings, random)];
        degrees = [.. Band(settings, settings.RotationRmsDegrees, random)];
        scale = [.. Band(settings, settings.ScaleRmsPercent / 100, random)];
    }

    /// <summary>How the view lies at a time.</summary>
    /// <param name="seconds">Time since the first frame, s.</param>
    public CameraPose At(double seconds) => new(Sum(shiftX, seconds), Sum(shiftY, seconds), Sum(degrees, seconds), 1 + Sum(scale, seconds));

    private static Tone[] Band(VibrationSettings settings, double rms, SeededRandom random)
    {
        // Every parameter takes its draws, used or not, so that a change of one leaves the others as they were.
        var tones = new Tone[BandTones];
        for (int i = 0; i < BandTones; i++)
        {
            double hertz = settings.LowHertz + ((settings.HighHertz - settings.LowHertz) * (i + random.NextUniform()) / BandTones);
            tones[i] = new Tone(rms * Math.Sqrt(2.0 / BandTones), 2 * Math.PI * hertz, 2 * Math.PI * random.NextUniform());
        }

        return rms > 0 ? tones : [];
    }

    private static IEnumerable<Tone> Lines(VibrationSettings settings, SeededRandom random) =>
        settings.Lines.Select(line => new Tone(line.AmplitudePixels, 2 * Math.PI * line.Hertz, 2 * Math.PI * random.NextUniform()));

    private static double Sum(Tone[] tones, double seconds)
    {
        double sum = 0;
        foreach (Tone tone in tones)
            sum += tone.Amplitude * Math.Sin((tone.RadiansPerSecond * seconds) + tone.Phase);
        return sum;
    }

    private readonly record struct Tone(double Amplitude, double RadiansPerSecond, double Phase);
}
