using System.Numerics;

namespace BosFlow.Numerics.Spectral;

/// <summary>
/// Circular, zero-mean, normalised correlation of square windows by FFT, several windows side by side (lanes).
/// Holds its own buffers: one object a thread.
/// </summary>
/// <remarks>
/// C(d) = sum_x (a(x) - mean a) (b(x + d) - mean b) / sqrt(sum (a - mean a)^2 sum (b - mean b)^2), indices modulo the size.
/// Both windows are packed into one complex signal z = a + i b, so one forward and one inverse transform serve a pair:
/// with Z(k) = p + iq and Z(-k) = r + is the cross-spectrum conj(A) B is [2(ps + qr) + i(|Z(-k)|^2 - |Z(k)|^2)] / 4 (derived).
/// </remarks>
public sealed class WindowCorrelator
{
    private readonly AxisFft fft;
    private readonly float[] real;
    private readonly float[] imaginary;
    private readonly float[] scratch;
    private readonly double[] energyProduct;

    /// <summary>Prepares buffers.</summary>
    /// <param name="size">Side of the windows, px: a power of two, 8 to 512.</param>
    /// <param name="lanes">How many windows are correlated side by side, at least 1.</param>
    public WindowCorrelator(int size, int lanes = 1)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(size, 8);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(size, 512);
        ArgumentOutOfRangeException.ThrowIfLessThan(lanes, 1);
        fft = new AxisFft(size);
        Size = size;
        Lanes = lanes;
        int count = checked(size * size * lanes);
        real = new float[count];
        imaginary = new float[count];
        scratch = new float[2 * count];
        energyProduct = new double[lanes];
    }

    /// <summary>Side of the windows, px.</summary>
    public int Size { get; }

    /// <summary>Number of windows side by side.</summary>
    public int Lanes { get; }

    /// <summary>Correlates one pair of windows.</summary>
    /// <param name="reference">Reference window, Size * Size grey levels, row-major, without NaN.</param>
    /// <param name="moved">Window of the frame, same shape.</param>
    /// <returns>The highest peak among displacements of at most Size / 2 - 1 px.</returns>
    public CorrelationPeak Correlate(ReadOnlySpan<float> reference, ReadOnlySpan<float> moved)
    {
        Span<CorrelationPeak> peaks = stackalloc CorrelationPeak[1];
        for (int lane = 0; lane < Lanes; lane++)
            SetWindows(lane, reference, moved);
        Correlate(peaks, (Size / 2) - 1);
        return peaks[0];
    }

    /// <summary>Puts one pair of windows into a lane; their means are taken off.</summary>
    /// <param name="lane">0 to Lanes - 1.</param>
    /// <param name="reference">Reference window, Size * Size grey levels, row-major, without NaN.</param>
    /// <param name="moved">Window of the frame, same shape.</param>
    public void SetWindows(int lane, ReadOnlySpan<float> reference, ReadOnlySpan<float> moved)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual((uint)lane, (uint)Lanes);
        int count = Size * Size;
        if (reference.Length != count || moved.Length != count)
            throw new ArgumentException($"Each window needs {count} grey levels.");
        double energyA = LoadLane(reference, real, lane);
        double energyB = LoadLane(moved, imaginary, lane);
        energyProduct[lane] = energyA * energyB;
    }

    /// <summary>Correlates all lanes that were set.</summary>
    /// <param name="peaks">One peak a lane, from lane 0 on; at most Lanes.</param>
    /// <param name="radius">Largest displacement looked at, px, 1 to Size / 2 - 1.</param>
    /// <remarks>The windows have to be set again before the next call.</remarks>
    public void Correlate(Span<CorrelationPeak> peaks, int radius)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(radius, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(radius, (Size / 2) - 1);
        if (peaks.Length > Lanes)
            throw new ArgumentException($"There are {Lanes} lanes.", nameof(peaks));
        Transform2D(real, imaginary);
        CrossSpectrum();
        Transform2D(imaginary, real); // swapped parts: inverse
        for (int lane = 0; lane < peaks.Length; lane++)
            peaks[lane] = PeakFinder.Find(real, Size, Lanes, lane, radius, energyProduct[lane] * Math.Pow(Size, 4));
    }

    private double LoadLane(ReadOnlySpan<float> window, float[] target, int lane)
    {
        double sum = 0;
        foreach (float value in window)
            sum += value;
        float mean = (float)(sum / window.Length);
        double energy = 0;
        for (int i = 0, at = lane; i < window.Length; i++, at += Lanes)
        {
            float centred = window[i] - mean;
            energy += centred * centred;
            target[at] = centred;
        }

        return energy;
    }

    private void Transform2D(float[] re, float[] im)
    {
        int row = Size * Lanes;
        for (int y = 0; y < Size; y++)
            fft.Transform(re.AsSpan(y * row, row), im.AsSpan(y * row, row), scratch, Lanes);
        fft.Transform(re, im, scratch, row);
    }

    private void CrossSpectrum()
    {
        int mask = Size - 1;
        for (int ky = 0; ky <= Size / 2; ky++)
        {
            int mirrorY = (-ky) & mask;
            for (int kx = 0; kx < Size; kx++)
            {
                int mirrorX = (-kx) & mask;
                if (mirrorY == ky && mirrorX < kx)
                    continue;
                int here = ((ky * Size) + kx) * Lanes;
                int there = ((mirrorY * Size) + mirrorX) * Lanes;
                Product(here, there);
            }
        }
    }

    private void Product(int here, int there)
    {
        int width = Vector<float>.Count, lane = 0;
        for (; lane <= Lanes - width; lane += width)
        {
            Vector<float> p = new(real, here + lane), q = new(imaginary, here + lane);
            Vector<float> r = new(real, there + lane), s = new(imaginary, there + lane);
            Vector<float> product = ((p * s) + (q * r)) * 0.5f;
            Vector<float> difference = (((r * r) + (s * s)) - ((p * p) + (q * q))) * 0.25f;
            product.CopyTo(real, here + lane);
            difference.CopyTo(imaginary, here + lane);
            product.CopyTo(real, there + lane);
            (-difference).CopyTo(imaginary, there + lane);
        }

        for (; lane < Lanes; lane++)
        {
            float p = real[here + lane], q = imaginary[here + lane];
            float r = real[there + lane], s = imaginary[there + lane];
            float product = ((p * s) + (q * r)) * 0.5f;
            float difference = (((r * r) + (s * s)) - ((p * p) + (q * q))) * 0.25f;
            real[here + lane] = product;
            imaginary[here + lane] = difference;
            real[there + lane] = product;
            imaginary[there + lane] = -difference;
        }
    }
}
