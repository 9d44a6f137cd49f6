using BosFlow.Registration;
using BosFlow.Speckle;

namespace BosFlow.Synthesis;

/// <summary>Motion of the view over time: a similarity about the picture's centre, relative to time 0.</summary>
public sealed class CameraShake
{
    private const int Tones = 5;
    private readonly ShakeSettings settings;
    private readonly double centreX;
    private readonly double centreY;
    private readonly (double FrequencyHz, double Phase)[,] tones = new (double, double)[4, Tones];

    /// <summary>Draws a motion.</summary>
    /// <param name="settings">Amplitudes and highest frequency.</param>
    /// <param name="width">Width of the picture, px.</param>
    /// <param name="height">Height of the picture, px.</param>
    /// <param name="seed">Seed of frequencies and phases.</param>
    public CameraShake(ShakeSettings settings, int width, int height, ulong seed)
    {
        ArgumentNullException.ThrowIfNull(settings);
        this.settings = settings;
        centreX = (width - 1) / 2.0;
        centreY = (height - 1) / 2.0;
        var random = new SeededRandom(seed);
        for (int parameter = 0; parameter < 4; parameter++)
        {
            for (int tone = 0; tone < Tones; tone++)
                tones[parameter, tone] = (settings.HighestFrequencyHz * (0.05 + (0.95 * random.NextUniform())), 2 * Math.PI * random.NextUniform());
        }
    }

    /// <summary>Where the view at rest (time 0) is seen at a time.</summary>
    /// <param name="seconds">Time since the first frame, s.</param>
    public PlanarMotion At(double seconds) => PoseAt(seconds).ToMotion(centreX, centreY);

    /// <summary>How the view lies at a time.</summary>
    /// <param name="seconds">Time since the first frame, s.</param>
    public CameraPose PoseAt(double seconds) => new(
        settings.ShiftPixels * Wave(0, seconds), settings.ShiftPixels * Wave(1, seconds),
        settings.RotationDegrees * Wave(2, seconds), 1 + (0.01 * settings.ScalePercent * Wave(3, seconds)));

    /// <summary>A similarity about a centre.</summary>
    /// <param name="centreX">x of the centre, px.</param>
    /// <param name="centreY">y of the centre, px.</param>
    /// <param name="shiftX">Shift to the right, px.</param>
    /// <param name="shiftY">Shift down, px.</param>
    /// <param name="degrees">Rotation, degrees counter-clockwise as seen on the picture.</param>
    /// <param name="scale">Magnification, 1.</param>
    public static PlanarMotion Similarity(double centreX, double centreY, double shiftX, double shiftY, double degrees, double scale)
    {
        (double sine, double cosine) = Math.SinCos(double.DegreesToRadians(degrees));
        double c = scale * cosine;
        double s = scale * sine;
        return new PlanarMotion(
            c, s, centreX + shiftX - (c * centreX) - (s * centreY),
            -s, c, centreY + shiftY + (s * centreX) - (c * centreY), 0, 0);
    }

    /// <summary>Sum of tones of equal amplitude, minus its value at time 0; never beyond -1 to 1.</summary>
    private double Wave(int parameter, double seconds)
    {
        double sum = 0;
        for (int tone = 0; tone < Tones; tone++)
        {
            (double frequency, double phase) = tones[parameter, tone];
            sum += Math.Sin((2 * Math.PI * frequency * seconds) + phase) - Math.Sin(phase);
        }

        return sum / (2 * Tones);
    }
}
