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
    // Rows a power of two of bytes apart would all fall into the same few sets of the first-level cache.
    private const int RowPadding = 16;

    private readonly AxisFft fft;
    private readonly int rowStride;
    private readonly float[] real;
    private readonly float[] imaginary;
    private readonly float[] scratch;
    private readonly float[] referenceWindows;
    private readonly float[] movedWindows;
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
        rowStride = checked((size * lanes) + RowPadding);
        int count = checked(size * rowStride);
        real = new float[count];
        imaginary = new float[count];
        scratch = new float[2 * count];
        referenceWindows = new float[checked(size * size * lanes)];
        movedWindows = new float[referenceWindows.Length];
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
        double energyA = Centre(reference, referenceWindows.AsSpan(lane * count, count));
        double energyB = Centre(moved, movedWindows.AsSpan(lane * count, count));
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
        for (int y = 0; y < Size; y++)
        {
            Interleave(referenceWindows, real, y);
            Interleave(movedWindows, imaginary, y);
            TransformRow(real, imaginary, y);
        }

        TransformColumns(real, imaginary);
        CrossSpectrum();

        // The inverse is the same transform with the parts swapped; only rows that the search looks at are finished.
        TransformColumns(imaginary, real);
        for (int dy = -radius - 1; dy <= radius + 1; dy++)
            TransformRow(imaginary, real, dy & (Size - 1));
        var plane = new CorrelationPlane(real, Size, Lanes, rowStride);
        for (int lane = 0; lane < peaks.Length; lane++)
            peaks[lane] = PeakFinder.Find(plane, lane, radius, energyProduct[lane] * Math.Pow(Size, 4));
    }

    // Takes the mean off and returns the sum of squares; the order of additions depends on the width of a vector alone.
    private static double Centre(ReadOnlySpan<float> window, Span<float> target)
    {
        int width = Vector<float>.Count;
        Vector<float> wideSum = Vector<float>.Zero;
        int i = 0;
        for (; i <= window.Length - width; i += width)
            wideSum += new Vector<float>(window[i..]);
        double sum = Vector.Sum(wideSum);
        for (; i < window.Length; i++)
            sum += window[i];
        float mean = (float)(sum / window.Length);

        Vector<float> wideMean = new(mean), wideEnergy = Vector<float>.Zero;
        double energy = 0;
        for (i = 0; i <= window.Length - width; i += width)
        {
            Vector<float> centred = new Vector<float>(window[i..]) - wideMean;
            centred.CopyTo(target[i..]);
            wideEnergy += centred * centred;
        }

        for (; i < window.Length; i++)
        {
            target[i] = window[i] - mean;
            energy += target[i] * target[i];
        }

        return energy + Vector.Sum(wideEnergy);
    }

    private void Interleave(float[] windows, float[] target, int y)
    {
        Span<float> line = target.AsSpan(y * rowStride, Size * Lanes);
        for (int lane = 0; lane < Lanes; lane++)
        {
            ReadOnlySpan<float> row = windows.AsSpan(((lane * Size) + y) * Size, Size);
            for (int x = 0, at = lane; x < row.Length; x++, at += Lanes)
                line[at] = row[x];
        }
    }

    private void TransformRow(float[] re, float[] im, int y) =>
        fft.Transform(re.AsSpan(y * rowStride, Size * Lanes), im.AsSpan(y * rowStride, Size * Lanes), scratch, Lanes);

    // The padding is transformed along with the rest: it is zero and stays zero.
    private void TransformColumns(float[] re, float[] im) => fft.Transform(re, im, scratch, rowStride);

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
                int here = (ky * rowStride) + (kx * Lanes);
                int there = (mirrorY * rowStride) + (mirrorX * Lanes);
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
