using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using BosFlow.Numerics.Vectors;

namespace BosFlow.Numerics.Spectral;

/// <summary>
/// Windows of one reference picture, transformed once, that the windows of many frames are correlated with: circular, zero-mean, normalised, 32 windows or fewer at a time.
/// </summary>
/// <remarks>
/// C(d) = sum a(x) b(x + d) / sqrt(sum a^2 sum b^2) without means, indices modulo the size. Two windows of a frame, f1 and f2, are one complex signal f1 + i f2; with A and B their
/// transforms and R1, R2 those of the reference, the inverse transform of conj(R1) A + i conj(R2) B holds both correlations, one in its real and one in its imaginary part
/// (derived). Spectra are kept in 16 bits, since reading them takes longer than multiplying. Immutable after construction; safe for several threads, each with its own <see cref="Workspace"/>.
/// </remarks>
public sealed class ReferenceSpectra
{
    private readonly LaneFft fft;
    private readonly short[] spectra;
    private readonly double[] energy;
    private readonly int lanes;

    /// <summary>Transforms the windows of the reference.</summary>
    /// <param name="size">Side of the windows, px: 16, 32 or 64.</param>
    /// <param name="picture">Reference, grey levels row by row, without NaN.</param>
    /// <param name="stride">Floats from one row to the next.</param>
    /// <param name="corners">Place of each window's first pixel in the picture.</param>
    public ReferenceSpectra(int size, ReadOnlySpan<float> picture, int stride, ReadOnlySpan<int> corners)
    {
        fft = new LaneFft(size);
        Size = size;
        Count = corners.Length;
        lanes = Vector512.IsHardwareAccelerated ? Lanes16.Count : Vector256.IsHardwareAccelerated ? Lanes8.Count : Vector128.IsHardwareAccelerated ? Lanes4.Count : Lane1.Count;
        Batches = (Count + WindowsPerBatch - 1) / WindowsPerBatch;
        spectra = new short[checked(Batches * BatchLength)];
        energy = new double[Batches * WindowsPerBatch];
        var work = new Workspace(this);
        for (int batch = 0; batch < Batches; batch++)
        {
            ReadOnlySpan<int> places = corners.Slice(batch * WindowsPerBatch, Math.Min(WindowsPerBatch, Count - (batch * WindowsPerBatch)));
            if (lanes == Lanes16.Count)
                Prepare<Lanes16>(batch, picture, stride, places, work);
            else if (lanes == Lanes8.Count)
                Prepare<Lanes8>(batch, picture, stride, places, work);
            else if (lanes == Lanes4.Count)
                Prepare<Lanes4>(batch, picture, stride, places, work);
            else
                Prepare<Lane1>(batch, picture, stride, places, work);
        }
    }

    /// <summary>Side of the windows, px.</summary>
    public int Size { get; }

    /// <summary>Number of windows.</summary>
    public int Count { get; }

    /// <summary>Windows that are correlated together.</summary>
    public int WindowsPerBatch => 2 * lanes;

    /// <summary>Number of batches; the last one may be short.</summary>
    public int Batches { get; }

    // Rows and columns of planes lie one place farther apart than they are long: powers of two would all fall into the same few lines of the cache.
    private int LineStride => (Size + 1) * lanes;

    // Per wave number of the half plane: R1 real and imaginary, R2 real and imaginary, all lanes.
    private int BatchLength => Size * ((Size / 2) + 1) * 4 * lanes;

    /// <summary>Correlates the windows of one batch.</summary>
    /// <param name="batch">0 to Batches - 1: windows batch * WindowsPerBatch and on.</param>
    /// <param name="picture">Frame, grey levels row by row, without NaN.</param>
    /// <param name="stride">Floats from one row to the next.</param>
    /// <param name="corners">Place of each window's first pixel in the frame.</param>
    /// <param name="radius">Largest displacement looked at, px, 1 to Size / 2 - 2.</param>
    /// <param name="work">Working memory.</param>
    /// <param name="peaks">One peak a window.</param>
    public void Correlate(int batch, ReadOnlySpan<float> picture, int stride, ReadOnlySpan<int> corners, int radius, Workspace work, Span<CorrelationPeak> peaks)
    {
        ArgumentNullException.ThrowIfNull(work);
        ArgumentOutOfRangeException.ThrowIfLessThan(radius, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(radius, (Size / 2) - 2);
        if (lanes == Lanes16.Count)
            Correlate<Lanes16>(batch, picture, stride, corners, radius, work, peaks);
        else if (lanes == Lanes8.Count)
            Correlate<Lanes8>(batch, picture, stride, corners, radius, work, peaks);
        else if (lanes == Lanes4.Count)
            Correlate<Lanes4>(batch, picture, stride, corners, radius, work, peaks);
        else
            Correlate<Lane1>(batch, picture, stride, corners, radius, work, peaks);
    }

    private void Prepare<T>(int batch, ReadOnlySpan<float> picture, int stride, ReadOnlySpan<int> corners, Workspace work)
        where T : struct, ILanes<T>
    {
        Forward<T>(picture, stride, corners, work);
        float[] exact = new float[BatchLength];
        for (int kx = 0; kx <= Size / 2; kx++)
        {
            Columns<T>(kx, work);
            if (kx != 0 && kx != Size / 2)
                Columns<T>(Size - kx, work);
            for (int ky = 0; ky < Size; ky++)
            {
                Separate<T>(kx, ky, work, out T ar, out T ai, out T br, out T bi);
                ref float target = ref exact[((kx * Size) + ky) * 4 * lanes];
                bool mean = kx == 0 && ky == 0;
                (mean ? T.Of(0) : ar).Store(ref target, 0);
                (mean ? T.Of(0) : ai).Store(ref target, lanes);
                (mean ? T.Of(0) : br).Store(ref target, 2 * lanes);
                (mean ? T.Of(0) : bi).Store(ref target, 3 * lanes);
            }
        }

        Pack(batch, exact, work.Energy, corners.Length);
    }

    // Every window in steps of its own, of which the largest value fills 16 bits; its energy is that in these steps.
    private void Pack(int batch, float[] exact, ReadOnlySpan<double> energies, int windows)
    {
        Span<short> packed = spectra.AsSpan(batch * BatchLength, BatchLength);
        for (int window = 0; window < windows; window++)
        {
            int first = ((window & 1) * 2 * lanes) + (window >> 1);
            float most = 0;
            for (int i = first; i < exact.Length; i += 4 * lanes)
                most = Math.Max(most, Math.Max(Math.Abs(exact[i]), Math.Abs(exact[i + lanes])));
            float step = most > 0 ? most / short.MaxValue : 1;
            for (int i = first; i < exact.Length; i += 4 * lanes)
            {
                packed[i] = (short)MathF.Round(exact[i] / step);
                packed[i + lanes] = (short)MathF.Round(exact[i + lanes] / step);
            }

            energy[(batch * WindowsPerBatch) + window] = energies[window] / ((double)step * step);
        }
    }

    private void Correlate<T>(int batch, ReadOnlySpan<float> picture, int stride, ReadOnlySpan<int> corners, int radius, Workspace work, Span<CorrelationPeak> peaks)
        where T : struct, ILanes<T>
    {
        Forward<T>(picture, stride, corners, work);
        for (int kx = 0; kx <= Size / 2; kx++)
        {
            Columns<T>(kx, work);
            bool paired = kx != 0 && kx != Size / 2;
            if (paired)
                Columns<T>(Size - kx, work);
            Multiply<T>(kx, ref spectra[(batch * BatchLength) + (kx * Size * 4 * lanes)], work);
            BackColumns<T>(kx, work);
            if (paired)
                BackColumns<T>(Size - kx, work);
        }

        for (int dy = -radius - 1; dy <= radius + 1; dy++)
        {
            int row = (dy & (Size - 1)) * LineStride;
            fft.Transform<T>(ref work.PlaneImaginary[row], ref work.PlaneReal[row], lanes, ref work.PlaneImaginary[row], ref work.PlaneReal[row], lanes, work.Scratch);
        }

        double points = (double)Size * Size;
        for (int part = 0; part < 2; part++)
        {
            float[] values = part == 0 ? work.PlaneReal : work.PlaneImaginary;
            LanePeaks.Find<T>(values, Size, LineStride, radius, work.PeakPlaces, work.SecondPeaks);
            for (int lane = 0; lane < lanes && (2 * lane) + part < corners.Length; lane++)
            {
                int window = (2 * lane) + part;
                double product = energy[(batch * WindowsPerBatch) + window] * work.Energy[window] * points * points;
                peaks[window] = PeakFinder.Fit(new CorrelationPlane(values, Size, lanes, LineStride), lane, work.PeakPlaces[lane], work.SecondPeaks[lane], product);
            }
        }
    }

    // Rows of all windows, transformed and turned into columns: [kx][y][lane].
    private void Forward<T>(ReadOnlySpan<float> picture, int stride, ReadOnlySpan<int> corners, Workspace work)
        where T : struct, ILanes<T>
    {
        work.Start();
        for (int y = 0; y < Size; y++)
        {
            Gather<T>(picture, stride, corners, y, work);
            int at = y * lanes;
            fft.Transform<T>(ref work.RowReal[0], ref work.RowImaginary[0], lanes, ref work.ColumnsReal[at], ref work.ColumnsImaginary[at], LineStride, work.Scratch);
        }

        work.FinishEnergy(Size * Size);
    }

    // Even windows are real parts, odd ones imaginary parts; absent windows repeat the first one.
    private void Gather<T>(ReadOnlySpan<float> picture, int stride, ReadOnlySpan<int> corners, int y, Workspace work)
        where T : struct, ILanes<T>
    {
        for (int part = 0; part < 2; part++)
        {
            Span<float> target = part == 0 ? work.RowReal : work.RowImaginary;
            Span<int> places = work.Places.AsSpan(0, lanes);
            for (int lane = 0; lane < lanes; lane++)
                places[lane] = corners[Math.Min((2 * lane) + part, corners.Length - 1)] + (y * stride);
            LaneGather.Rows(picture, places, Size, target);
            LaneGather.AddSquares<T>(target, work.Sums.AsSpan(part * lanes, lanes), work.Squares.AsSpan(part * lanes, lanes));
        }
    }

    private void Columns<T>(int kx, Workspace work)
        where T : struct, ILanes<T>
    {
        int at = kx * LineStride;
        fft.Transform<T>(ref work.ColumnsReal[at], ref work.ColumnsImaginary[at], lanes, ref work.ColumnsReal[at], ref work.ColumnsImaginary[at], lanes, work.Scratch);
    }

    private void BackColumns<T>(int kx, Workspace work)
        where T : struct, ILanes<T>
    {
        int at = kx * LineStride, to = kx * lanes;
        fft.Transform<T>(ref work.ColumnsImaginary[at], ref work.ColumnsReal[at], lanes, ref work.PlaneImaginary[to], ref work.PlaneReal[to], LineStride, work.Scratch);
    }

    // Spectra A and B of the two real windows in Z at one wave number.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void Separate<T>(int kx, int ky, Workspace work, out T ar, out T ai, out T br, out T bi)
        where T : struct, ILanes<T>
    {
        int here = (kx * LineStride) + (ky * lanes), there = (((Size - kx) & (Size - 1)) * LineStride) + (((Size - ky) & (Size - 1)) * lanes);
        T p = T.Load(ref work.ColumnsReal[here], 0), q = T.Load(ref work.ColumnsImaginary[here], 0);
        T r = T.Load(ref work.ColumnsReal[there], 0), s = T.Load(ref work.ColumnsImaginary[there], 0);
        T half = T.Of(0.5f);
        ar = (p + r) * half;
        ai = (q - s) * half;
        br = (q + s) * half;
        bi = (r - p) * half;
    }

    private void Multiply<T>(int kx, ref short reference, Workspace work)
        where T : struct, ILanes<T>
    {
        bool paired = kx != 0 && kx != Size / 2;
        int end = paired ? Size : (Size / 2) + 1;
        for (int ky = 0; ky < end; ky++)
        {
            Separate<T>(kx, ky, work, out T ar, out T ai, out T br, out T bi);
            nint at = ky * 4 * lanes;
            T r1 = T.Load(ref reference, at), i1 = T.Load(ref reference, at + lanes);
            T r2 = T.Load(ref reference, at + (2 * lanes)), i2 = T.Load(ref reference, at + (3 * lanes));
            T c1r = T.MultiplyAdd(r1, ar, i1 * ai), c1i = (r1 * ai) - (i1 * ar);
            T c2r = T.MultiplyAdd(r2, br, i2 * bi), c2i = (r2 * bi) - (i2 * br);
            int here = (kx * LineStride) + (ky * lanes), there = (((Size - kx) & (Size - 1)) * LineStride) + (((Size - ky) & (Size - 1)) * lanes);
            (c1r + c2i).Store(ref work.ColumnsReal[there], 0);
            (c2r - c1i).Store(ref work.ColumnsImaginary[there], 0);
            (c1r - c2i).Store(ref work.ColumnsReal[here], 0);
            (c1i + c2r).Store(ref work.ColumnsImaginary[here], 0);
        }
    }

    /// <summary>Working memory of one thread.</summary>
    public sealed class Workspace
    {
        /// <summary>Prepares the memory.</summary>
        /// <param name="spectra">The windows it is for.</param>
        public Workspace(ReferenceSpectra spectra)
        {
            ArgumentNullException.ThrowIfNull(spectra);
            int row = spectra.Size * spectra.lanes, plane = spectra.Size * spectra.LineStride;
            RowReal = new float[row];
            RowImaginary = new float[row];
            ColumnsReal = new float[plane];
            ColumnsImaginary = new float[plane];
            PlaneReal = new float[plane];
            PlaneImaginary = new float[plane];
            Scratch = new float[2 * row];
            Sums = new float[2 * spectra.lanes];
            Squares = new float[2 * spectra.lanes];
            Energy = new double[2 * spectra.lanes];
            Places = new int[spectra.lanes];
            PeakPlaces = new (int, int)[spectra.lanes];
            SecondPeaks = new float[spectra.lanes];
        }

        internal float[] RowReal { get; }

        internal float[] RowImaginary { get; }

        internal float[] ColumnsReal { get; }

        internal float[] ColumnsImaginary { get; }

        internal float[] PlaneReal { get; }

        internal float[] PlaneImaginary { get; }

        internal float[] Scratch { get; }

        internal float[] Sums { get; }

        internal float[] Squares { get; }

        internal double[] Energy { get; }

        internal int[] Places { get; }

        internal (int X, int Y)[] PeakPlaces { get; }

        internal float[] SecondPeaks { get; }

        internal void Start()
        {
            Array.Clear(Sums);
            Array.Clear(Squares);
        }

        // Sums lie part by part, windows alternate.
        internal void FinishEnergy(int points)
        {
            int lanes = Sums.Length / 2;
            for (int window = 0; window < Energy.Length; window++)
            {
                int at = ((window & 1) * lanes) + (window >> 1);
                Energy[window] = Math.Max(0, Squares[at] - ((double)Sums[at] * Sums[at] / points));
            }
        }
    }
}
