namespace BosFlow.Planning;

/// <summary>How a deflection runs across a structure, and what averaging leaves of its largest value.</summary>
/// <remarks>
/// Lengths in units of the structure's size, values in units of the largest deflection. The profile is kept as the amplitudes of its sines (odd) or cosines (even), so that any
/// averaging whose response to a wave is known can be laid over it: filtered(t) = 2 * integral of amplitude(k) response(k) sin(2 pi k t) dk.
/// </remarks>
internal sealed class DeflectionProfile
{
    private const int PerUnit = 128;
    private const int HighestPerSize = 16;
    private const int Samples = 1024;
    private const int Places = 24;
    private const double Negligible = 5e-4;

    private readonly bool odd;
    private readonly double reach;
    private readonly double[] amplitudes;
    private readonly double place;

    /// <summary>Takes a profile apart.</summary>
    /// <param name="profile">Deflection at a distance from the middle, 0 to <paramref name="reach"/>; largest value 1.</param>
    /// <param name="reach">Distance beyond which there is none, sizes.</param>
    /// <param name="odd">Whether it has the other sign on the other side; else the same.</param>
    /// <param name="isSharp">Whether it has a step or an edge, so that its waves never end.</param>
    public DeflectionProfile(Func<double, double> profile, double reach, bool odd, bool isSharp = false)
    {
        this.odd = odd;
        this.reach = reach;
        First = profile(0);
        double step = reach / Samples;
        double[] values = [.. Enumerable.Range(0, Samples).Select(i => profile((i + 0.5) * step))];
        place = (Array.IndexOf(values, values.Max()) + 0.5) * step;
        LargestSlope = Slope(values, step);
        amplitudes = Amplitudes(values, step, isSharp);
    }

    /// <summary>Deflection in the middle (beside a wall: at it).</summary>
    public double First { get; }

    /// <summary>Whether the deflection has the other sign on the other side.</summary>
    public bool IsOdd => odd;

    /// <summary>Largest change of the deflection over one size, 1.</summary>
    public double LargestSlope { get; }

    /// <summary>Largest value after averaging, and the largest slope.</summary>
    /// <param name="response">Response to a wave by its number of periods for each size.</param>
    /// <param name="length">Length over which is averaged, sizes.</param>
    /// <returns>Largest value, 1 without averaging.</returns>
    public double LargestAfter(Func<double, double> response, double length)
    {
        // The sum over waves repeats itself after a period that must hold the structure and what averaging adds to it.
        double longest = PerUnit / 2.0;
        double room = 2 * (reach + length);
        if (room > longest)
            return LargestAfter(response, Math.Max(0, (longest / 2) - reach)) * Math.Max(0.01, (longest / 2) - reach) / length;
        int stride = Math.Max(1, (int)(PerUnit / room));
        int count = (amplitudes.Length + stride - 1) / stride;
        Span<double> waves = count <= 512 ? stackalloc double[count] : new double[count];
        for (int k = 0; k < count; k++)
            waves[k] = amplitudes[k * stride] * response(k * stride / (double)PerUnit) * (k == 0 ? 1 : 2);
        double spacing = stride / (double)PerUnit;
        double largest = 0;
        double first = Math.Max(0, place - length);
        double last = place + length;
        for (int i = 0; i <= Places; i++)
            largest = Math.Max(largest, Math.Abs(Sum(waves, first + ((last - first) * i / Places), spacing)));
        return largest;
    }

    private double Sum(ReadOnlySpan<double> waves, double place, double spacing)
    {
        double angle = 2 * Math.PI * place * spacing;
        double twice = 2 * Math.Cos(angle);
        double before = odd ? -Math.Sin(angle) : Math.Cos(angle);
        double here = odd ? 0 : 1;
        double sum = 0;
        for (int k = 0; k < waves.Length; k++)
        {
            sum += waves[k] * here;
            (before, here) = (here, (twice * here) - before);
        }

        return sum * spacing;
    }

    private double Amplitude(double[] values, double step, double frequency)
    {
        double angle = 2 * Math.PI * frequency * step;
        double twice = 2 * Math.Cos(angle);
        double before = odd ? -Math.Sin(angle / 2) : Math.Cos(angle / 2);
        double here = -before;
        if (!odd)
            here = before;
        double sum = 0;
        for (int i = 0; i < values.Length; i++)
        {
            sum += values[i] * here;
            (before, here) = (here, (twice * here) - before);
        }

        return 2 * sum * step;
    }

    private double Slope(double[] values, double step)
    {
        double largest = odd ? Math.Abs(values[0]) / (step / 2) : 0;
        for (int i = 1; i < values.Length; i++)
            largest = Math.Max(largest, Math.Abs(values[i] - values[i - 1]) / step);
        return largest;
    }

    /// <summary>Amplitudes of ever shorter waves, until a whole period of them is negligible or the shortest is reached.</summary>
    private double[] Amplitudes(double[] values, double step, bool isSharp)
    {
        var all = new List<double>();
        double largest = 0;
        int quiet = 0;
        for (int j = 0; j < PerUnit * HighestPerSize && quiet < PerUnit; j++)
        {
            double frequency = j / (double)PerUnit;
            double amplitude = Amplitude(values, step, frequency);
            // A step cut off at the last wave rings; the taper of C. Lanczos takes the ringing away and widens the step by a sixteenth of the size.
            if (isSharp)
                amplitude *= Optics.FrequencyResponse.Box(frequency / HighestPerSize);
            largest = Math.Max(largest, Math.Abs(amplitude));
            quiet = Math.Abs(amplitude) < Negligible * largest ? quiet + 1 : 0;
            all.Add(amplitude);
        }

        return [.. all.Take(all.Count - Math.Max(0, quiet - 1))];
    }
}
