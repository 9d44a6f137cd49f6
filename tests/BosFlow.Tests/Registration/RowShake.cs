using BosFlow.Registration;

namespace BosFlow.Tests.Registration;

/// <summary>A shaken camera that reads its rows one after the other: the motion of a row is that of its own time. Sums of sinusoids, exact at any time.</summary>
internal sealed class RowShake
{
    private const int Tones = 16;
    private readonly (double Hertz, double Phase)[,] tones = new (double, double)[4, Tones];
    private readonly double[] rms;
    private readonly double readoutSeconds;
    private readonly int width;
    private readonly int height;

    /// <param name="shiftRms">RMS of the shift in x and in y, px.</param>
    /// <param name="turnRms">RMS of the turn at half the width from the middle, px; stretch a fifth of it.</param>
    /// <param name="highestHertz">Highest frequency, Hz.</param>
    /// <param name="readoutSeconds">Time between first and last row, s.</param>
    /// <param name="width">Width of the picture, px.</param>
    /// <param name="height">Height of the picture, px.</param>
    /// <param name="seed">Seed of frequencies and phases.</param>
    public RowShake(double shiftRms, double turnRms, double highestHertz, double readoutSeconds, int width, int height, int seed)
    {
        (this.readoutSeconds, this.width, this.height) = (readoutSeconds, width, height);
        rms = [shiftRms, shiftRms, turnRms, turnRms / 5];
        var random = new Random(seed);
        for (int part = 0; part < 4; part++)
        {
            for (int tone = 0; tone < Tones; tone++)
                tones[part, tone] = (highestHertz * random.NextDouble(), 2 * Math.PI * random.NextDouble());
        }
    }

    /// <summary>The motion of a frame whose first row is read at a time.</summary>
    public IPictureMotion At(double seconds) => new Frame(this, seconds);

    private double Wave(int part, double seconds)
    {
        double sum = 0;
        for (int tone = 0; tone < Tones; tone++)
            sum += Math.Sin((2 * Math.PI * tones[part, tone].Hertz * seconds) + tones[part, tone].Phase);
        return rms[part] * Math.Sqrt(2.0 / Tones) * sum;
    }

    private sealed class Frame(RowShake shake, double start) : IPictureMotion
    {
        public PlanarMotion Planar => throw new NotSupportedException();

        // The row that a point lands on decides when it is read: found by repetition, which converges as rows move less than they are apart.
        public (double U, double V) DisplacementAt(double x, double y)
        {
            double across = ((2 * x) - (shake.width - 1)) / shake.width;
            double along = ((2 * y) - (shake.height - 1)) / shake.width;
            double u = 0, v = 0;
            for (int i = 0; i < 40; i++)
            {
                double time = start + (shake.readoutSeconds * (y + v) / shake.height);
                double turn = shake.Wave(2, time);
                double stretch = shake.Wave(3, time);
                u = shake.Wave(0, time) + (stretch * across) - (turn * along);
                v = shake.Wave(1, time) + (turn * across) + (stretch * along);
            }

            return (u, v);
        }
    }
}
