using BosFlow.Numerics.Interpolation;

namespace BosFlow.Numerics.Tests.Interpolation;

public sealed class FineSplineFitTests
{
    private const int Size = 64;
    private const double Strength = 1e-4;

    // A wave of 0.62 cycles a pixel: no single picture can tell it from one of 0.38.
    private static readonly (double Frequency, double Phase)[] Waves = [(0.11, 0.4), (0.27, 1.1), (0.62, 2.3)];

    [Fact]
    public void Improve_PicturesAtManyFractions_FindsWavesShorterThanTwoPixels()
    {
        FineSpline fine = Fitted(jitter: true, threads: 2);

        float[] dx = [.. Enumerable.Repeat(0.25f, Size - 1)], dy = new float[Size - 1], row = new float[Size - 1];
        FineSplineRows.Sample(fine, Size / 2, dx, dy, row);
        for (int x = 10; x < Size - 10; x++)
            Assert.Equal(Scene(x + 0.25), row[x], 1.0);
    }

    [Fact]
    public void Improve_PicturesAtOneFraction_StaysWithWhatAPictureCanShow()
    {
        FineSpline fine = Fitted(jitter: false, threads: 1);

        // At the pixels it fits; between them the short wave is one of 0.38 cycles with its phase turned.
        float[] pixels = fine.AtPixels();
        for (int x = 10; x < Size - 10; x++)
            Assert.Equal(Scene(x), pixels[(Size / 2 * Size) + x], 0.6);
    }

    [Fact]
    public void Improve_AnyNumberOfThreads_GivesTheSameBits() =>
        Assert.Equal(Fitted(jitter: true, threads: 1).AtPixels(), Fitted(jitter: true, threads: 2).AtPixels());

    [Fact]
    public void Improve_PixelsNotUsed_LeaveNoTrace()
    {
        FineObservation[] pictures = Pictures(jitter: true, spoilt: float.NaN);
        FineSpline fine = Start(Pictures(jitter: true, spoilt: null));
        FineSplineFit.Improve(fine, pictures, Strength, new ParallelOptions());

        float[] pixels = fine.AtPixels();
        for (int x = 10; x < Size - 10; x++)
            Assert.Equal(Scene(x), pixels[(Size / 2 * Size) + x], 0.8);
    }

    private static FineSpline Fitted(bool jitter, int threads)
    {
        FineObservation[] pictures = Pictures(jitter, null);
        FineSpline fine = Start(pictures);
        (int iterations, _) = FineSplineFit.Improve(fine, pictures, Strength, new ParallelOptions { MaxDegreeOfParallelism = threads });
        Assert.InRange(iterations, 1, 12);
        return fine;
    }

    private static FineSpline Start(FineObservation[] pictures)
    {
        float[] first = [.. Enumerable.Range(0, Size).SelectMany(y => pictures[0].Row(y).ToArray())];
        return FineSpline.Through(first, Size, Size);
    }

    // Twelve pictures; the scene's point p is seen at p + shift.
    private static FineObservation[] Pictures(bool jitter, float? spoilt)
    {
        var random = new Random(5);
        return [.. Enumerable.Range(0, 12).Select(k =>
        {
            double shift = k == 0 || !jitter ? 0 : (4 * random.NextDouble()) - 2;
            float[] pixels = [.. Enumerable.Range(0, Size * Size).Select(i => (float)Scene((i % Size) - shift))];
            if (spoilt is { } value && k > 0)
                pixels.AsSpan((((Size / 2) + (k % 3)) * Size) + (4 * k), 6).Fill(value);
            return new FineObservation(Size, Size, pixels, (x, y) => (x - shift, y));
        })];
    }

    private static double Scene(double x)
    {
        double sum = 100;
        foreach ((double frequency, double phase) in Waves)
            sum += 10 * Math.Sin((2 * Math.PI * frequency * x) + phase);
        return sum;
    }
}
