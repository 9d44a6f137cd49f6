namespace BosFlow.Numerics.Integration;

/// <summary>Loops over bands of a fixed length, on one or more threads: what a band computes and the order of sums do not depend on the threads.</summary>
internal sealed class Bands(int threads, CancellationToken cancellationToken)
{
    private const int Length = 16384;
    private readonly ParallelOptions options = new() { MaxDegreeOfParallelism = threads };

    public void ThrowIfCancelled() => cancellationToken.ThrowIfCancellationRequested();

    /// <summary>Calls body(from, to) for all bands of 0 .. count.</summary>
    public void Run(int count, Action<int, int> body)
    {
        int bands = (count + Length - 1) / Length;
        if (bands <= 1 || threads == 1)
        {
            for (int band = 0; band < bands; band++)
                body(band * Length, Math.Min(count, (band + 1) * Length));
            return;
        }

        Parallel.For(0, bands, options, band => body(band * Length, Math.Min(count, (band + 1) * Length)));
    }

    /// <summary>Sums of up to three quantities that body(from, to) gives, over all bands of 0 .. count, added in the order of the bands.</summary>
    public (double A, double B, double C) Sum(int count, Func<int, int, (double A, double B, double C)> body)
    {
        int bands = (count + Length - 1) / Length;
        if (bands <= 1)
            return bands == 0 ? default : body(0, count);
        (double A, double B, double C)[] parts = new (double, double, double)[bands];
        if (threads == 1)
        {
            for (int band = 0; band < bands; band++)
                parts[band] = body(band * Length, Math.Min(count, (band + 1) * Length));
        }
        else
        {
            Parallel.For(0, bands, options, band => parts[band] = body(band * Length, Math.Min(count, (band + 1) * Length)));
        }

        (double A, double B, double C) sum = default;
        foreach ((double a, double b, double c) in parts)
            sum = (sum.A + a, sum.B + b, sum.C + c);
        return sum;
    }
}
