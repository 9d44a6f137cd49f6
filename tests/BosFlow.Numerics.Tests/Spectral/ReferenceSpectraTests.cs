using BosFlow.Numerics.Spectral;
using BosFlow.Numerics.Vectors;

namespace BosFlow.Numerics.Tests.Spectral;

public sealed class ReferenceSpectraTests
{
    private const int Stride = 150;

    [Theory]
    [InlineData(16)]
    [InlineData(32)]
    [InlineData(64)]
    public void Correlate_WindowsOfAFrame_AgreesWithOnePairAtATime(int size)
    {
        float[] reference = Noise(Stride * 100, 1);
        float[] frame = [.. Noise(Stride * 100, 2).Select((value, i) => (0.4f * value) + 3 + reference[Math.Clamp(i - (2 * Stride) - 1, 0, reference.Length - 1)])];
        // One more than a whole batch of the widest vectors.
        int[] corners = [.. Enumerable.Range(0, 17).Select(k => (k % 3 * 7 * Stride) + (k * 5))];
        var spectra = new ReferenceSpectra(size, reference, Stride, corners);
        var work = new ReferenceSpectra.Workspace(spectra);
        var correlator = new WindowCorrelator(size);
        var peaks = new CorrelationPeak[spectra.WindowsPerBatch];

        for (int batch = 0; batch < spectra.Batches; batch++)
        {
            ReadOnlySpan<int> places = corners.AsSpan((batch * spectra.WindowsPerBatch)..Math.Min(corners.Length, (batch + 1) * spectra.WindowsPerBatch));
            spectra.Correlate(batch, frame, Stride, places, size / 4, work, peaks);
            for (int window = 0; window < places.Length; window++)
            {
                var expected = new CorrelationPeak[1];
                correlator.SetWindows(0, Cut(reference, places[window], size), Cut(frame, places[window], size));
                correlator.Correlate(expected, size / 4);
                Assert.Equal(expected[0].Dx, peaks[window].Dx, 1e-3); // logarithms of correlations with single-precision errors
                Assert.Equal(expected[0].Dy, peaks[window].Dy, 1e-3);
                Assert.Equal(expected[0].Value, peaks[window].Value, 1e-4);
                Assert.Equal(expected[0].PeakRatio, peaks[window].PeakRatio, 1e-2);
            }
        }
    }

    [Fact]
    public void Correlate_WindowWithoutContrast_HasNoPeak()
    {
        var spectra = new ReferenceSpectra(16, Noise(400, 1), 20, [0]);
        var peaks = new CorrelationPeak[1];

        spectra.Correlate(0, new float[400], 20, [0], 4, new ReferenceSpectra.Workspace(spectra), peaks);

        Assert.True(double.IsNaN(peaks[0].Dx));
        Assert.Equal(0, peaks[0].Value);
    }

    [Theory]
    [InlineData(16)]
    [InlineData(32)]
    [InlineData(64)]
    public void Transform_EveryWidthOfVectors_IsTheSumOfItsDefinition(int points)
    {
        AssertTransform<Lane1>(points);
        AssertTransform<Lanes4>(points);
        AssertTransform<Lanes8>(points);
        AssertTransform<Lanes16>(points);
    }

    private static void AssertTransform<T>(int points)
        where T : struct, ILanes<T>
    {
        int lanes = T.Count;
        float[] real = Noise(points * lanes, 3), imaginary = Noise(points * lanes, 4);
        float[] toReal = new float[real.Length], toImaginary = new float[real.Length];
        new LaneFft(points).Transform<T>(ref real[0], ref imaginary[0], lanes, ref toReal[0], ref toImaginary[0], lanes, new float[2 * points * lanes]);
        for (int k = 0; k < points; k++)
        {
            for (int lane = 0; lane < lanes; lane++)
            {
                System.Numerics.Complex sum = 0;
                for (int j = 0; j < points; j++)
                    sum += new System.Numerics.Complex(real[(j * lanes) + lane], imaginary[(j * lanes) + lane]) * System.Numerics.Complex.Exp(new(0, -2 * Math.PI * j * k / points));
                Assert.Equal(sum.Real, toReal[(k * lanes) + lane], 2e-5); // 64 terms of order one in single precision
                Assert.Equal(sum.Imaginary, toImaginary[(k * lanes) + lane], 2e-5);
            }
        }
    }

    private static float[] Cut(float[] picture, int corner, int size)
    {
        float[] window = new float[size * size];
        for (int y = 0; y < size; y++)
            picture.AsSpan(corner + (y * Stride), size).CopyTo(window.AsSpan(y * size));
        return window;
    }

    private static float[] Noise(int count, int seed)
    {
        var random = new Random(seed);
        return [.. Enumerable.Range(0, count).Select(_ => (float)((random.NextDouble() * 2) - 1))];
    }
}
