namespace BosFlow.Triage;

/// <summary>How the picture shakes within the runs of neighbouring frames.</summary>
internal static class ShakeSpectrum
{
    private const int Steps = 64;
    private const int FewestFrames = 6;

    /// <summary>RMS distance from the straight course of each run, px, x and y together.</summary>
    public static double Rms(IEnumerable<PairReading> pairs) =>
        Spread.Rms(Courses(pairs).SelectMany(course => course.X.Zip(course.Y, (x, y) => Math.Sqrt((x * x) + (y * y)))));

    /// <summary>Frequency of the highest power, mean over the runs, Hz; NaN where the frames carry no time.</summary>
    public static double StrongestHertz(IEnumerable<PairReading> pairs, double intervalSeconds)
    {
        (double[] X, double[] Y)[] courses = [.. Courses(pairs)];
        if (courses.Length == 0 || !double.IsFinite(intervalSeconds))
            return double.NaN;
        double best = double.NaN, highest = 0;
        for (int step = 1; step <= Steps; step++)
        {
            double cycles = 0.5 * step / Steps;
            double power = courses.Sum(course => Power(course.X, cycles) + Power(course.Y, cycles));
            if (power > highest)
                (highest, best) = (power, cycles / intervalSeconds);
        }

        return best;
    }

    // Windowed by a Hann function, so that the ends of a short run do not ring.
    private static double Power(double[] course, double cyclesPerFrame)
    {
        double real = 0, imaginary = 0;
        for (int i = 0; i < course.Length; i++)
        {
            double weight = 1 - Math.Cos(2 * Math.PI * (i + 0.5) / course.Length);
            (double sine, double cosine) = Math.SinCos(2 * Math.PI * cyclesPerFrame * i);
            real += weight * course[i] * cosine;
            imaginary += weight * course[i] * sine;
        }

        return ((real * real) + (imaginary * imaginary)) / course.Length;
    }

    private static IEnumerable<(double[] X, double[] Y)> Courses(IEnumerable<PairReading> pairs) =>
        pairs.GroupBy(pair => pair.Burst)
            .Where(run => run.Count() + 1 >= FewestFrames && run.All(pair => pair.Failure is null))
            .Select(run => (Course([.. run.Select(pair => pair.ShiftX)]), Course([.. run.Select(pair => pair.ShiftY)])));

    // Position from the steps, without its straight line.
    private static double[] Course(double[] steps)
    {
        double[] place = new double[steps.Length + 1];
        for (int i = 0; i < steps.Length; i++)
            place[i + 1] = place[i] + steps[i];
        double middle = steps.Length / 2.0, mean = place.Average(), spread = 0, slope = 0;
        for (int i = 0; i < place.Length; i++)
        {
            spread += (i - middle) * (i - middle);
            slope += (i - middle) * place[i];
        }

        return [.. place.Select((value, i) => value - mean - (slope / spread * (i - middle)))];
    }
}
