using System.Numerics;
using System.Runtime.Intrinsics.X86;
using BosFlow.Numerics.Vectors;

namespace BosFlow.Numerics.Spectral;

/// <summary>Large square tiles of one reference picture, transformed once, that tiles of many frames are correlated with: circular, zero-mean, normalised, two at a time.</summary>
/// <remarks>
/// The arithmetic is that of <see cref="ReferenceSpectra"/>: two tiles of a frame are one complex signal, and one inverse transform holds both correlations. Lines of the second
/// direction are turned into columns first, so that a vector serves neighbouring lines in both. Immutable after construction; safe for several threads, each with its own <see cref="Workspace"/>.
/// </remarks>
public sealed class TileSpectra
{
    private readonly AxisFft fft;
    private readonly int stride;
    private readonly float[][] spectra;
    private readonly double[] energy;

    /// <summary>Transforms the tiles of the reference.</summary>
    /// <param name="size">Side of the tiles, px: a power of two, 16 to 512.</param>
    /// <param name="tiles">Size * Size grey levels each, row by row, without NaN.</param>
    public TileSpectra(int size, IReadOnlyList<float[]> tiles)
    {
        ArgumentNullException.ThrowIfNull(tiles);
        ArgumentOutOfRangeException.ThrowIfLessThan(size, 16);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(size, 512);
        fft = new AxisFft(size);
        Size = size;
        stride = Workspace.StrideOf(size);
        spectra = new float[tiles.Count][];
        energy = new double[tiles.Count];
        var work = new Workspace(size);
        for (int tile = 0; tile < tiles.Count; tile++)
        {
            tiles[tile].CopyTo(work.Tile(0));
            work.Tile(1).Clear();
            (energy[tile], _) = Forward(work);
            spectra[tile] = Spectrum(work);
        }
    }

    /// <summary>Side of the tiles, px.</summary>
    public int Size { get; }

    /// <summary>Correlates two tiles of a frame, put into the working memory, with one of the reference each.</summary>
    /// <param name="first">Tile of the reference that the first one is compared with.</param>
    /// <param name="second">The same for the second one.</param>
    /// <param name="radius">Largest displacement looked at, px, 1 to Size / 2 - 1.</param>
    /// <param name="work">Working memory with the two tiles.</param>
    /// <returns>The highest peak of each.</returns>
    public (CorrelationPeak First, CorrelationPeak Second) Correlate(int first, int second, int radius, Workspace work)
    {
        ArgumentNullException.ThrowIfNull(work);
        ArgumentOutOfRangeException.ThrowIfLessThan(radius, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(radius, (Size / 2) - 1);
        (double energyFirst, double energySecond) = Forward(work);
        Multiply(spectra[first], spectra[second], work);
        fft.Transform(work.TurnedImaginary, work.TurnedReal, work.Rows, stride);
        Turn(work.TurnedReal, work.Real);
        Turn(work.TurnedImaginary, work.Imaginary);
        fft.Transform(work.Imaginary, work.Real, work.Turned, stride);
        double points = (double)Size * Size * Size * Size;
        return (
            PeakFinder.Find(new CorrelationPlane(work.Real, Size, 1, stride), 0, radius, energy[first] * energyFirst * points),
            PeakFinder.Find(new CorrelationPlane(work.Imaginary, Size, 1, stride), 0, radius, energy[second] * energySecond * points));
    }

    // The transform of both tiles, [kx][ky]; sums of squares about the means.
    private (double First, double Second) Forward(Workspace work)
    {
        double first = Load(work.Tile(0), work.Real);
        double second = Load(work.Tile(1), work.Imaginary);
        fft.Transform(work.Real, work.Imaginary, work.Turned, stride);
        Turn(work.Real, work.TurnedReal);
        Turn(work.Imaginary, work.TurnedImaginary);
        fft.Transform(work.TurnedReal, work.TurnedImaginary, work.Rows, stride);
        return (first, second);
    }

    private double Load(ReadOnlySpan<float> tile, Span<float> plane)
    {
        double sum = 0, squares = 0;
        for (int y = 0; y < Size; y++)
        {
            ReadOnlySpan<float> row = tile.Slice(y * Size, Size);
            row.CopyTo(plane.Slice(y * stride, Size));
            Vector<float> wideSum = Vector<float>.Zero, wideSquares = Vector<float>.Zero;
            for (int x = 0; x < row.Length; x += Vector<float>.Count)
            {
                Vector<float> levels = new(row[x..]);
                wideSum += levels;
                wideSquares += levels * levels;
            }

            sum += Vector.Sum(wideSum);
            squares += Vector.Sum(wideSquares);
        }

        return Math.Max(0, squares - (sum * sum / tile.Length));
    }

    // Real and imaginary part of every wave number of the half plane; of a single real tile, without its mean.
    private float[] Spectrum(Workspace work)
    {
        float[] spectrum = new float[Size * ((Size / 2) + 1) * 2];
        for (int kx = 0; kx <= Size / 2; kx++)
        {
            for (int ky = 0; ky < Size; ky++)
            {
                int at = 2 * ((kx * Size) + ky);
                spectrum[at] = work.TurnedReal[(kx * stride) + ky];
                spectrum[at + 1] = work.TurnedImaginary[(kx * stride) + ky];
            }
        }

        (spectrum[0], spectrum[1]) = (0, 0);
        return spectrum;
    }

    private void Multiply(ReadOnlySpan<float> reference1, ReadOnlySpan<float> reference2, Workspace work)
    {
        Span<float> real = work.TurnedReal, imaginary = work.TurnedImaginary;
        int mask = Size - 1;
        for (int kx = 0; kx <= Size / 2; kx++)
        {
            int mirrorX = (-kx) & mask;
            int end = mirrorX != kx ? Size : (Size / 2) + 1;
            for (int ky = 0; ky < end; ky++)
            {
                int here = (kx * stride) + ky, there = (mirrorX * stride) + ((-ky) & mask), at = 2 * ((kx * Size) + ky);
                float p = real[here], q = imaginary[here], r = real[there], s = imaginary[there];
                float ar = (p + r) * 0.5f, ai = (q - s) * 0.5f, br = (q + s) * 0.5f, bi = (r - p) * 0.5f;
                float c1r = (reference1[at] * ar) + (reference1[at + 1] * ai), c1i = (reference1[at] * ai) - (reference1[at + 1] * ar);
                float c2r = (reference2[at] * br) + (reference2[at + 1] * bi), c2i = (reference2[at] * bi) - (reference2[at + 1] * br);
                (real[there], imaginary[there]) = (c1r + c2i, c2r - c1i);
                (real[here], imaginary[here]) = (c1r - c2i, c1i + c2r);
            }
        }
    }

    private void Turn(ReadOnlySpan<float> from, Span<float> to)
    {
        if (Avx.IsSupported)
        {
            for (int y = 0; y < Size; y += 8)
            {
                for (int x = 0; x < Size; x += 8)
                    Transpose8.Turn(from[((y * stride) + x)..], stride, to[((x * stride) + y)..], stride);
            }

            return;
        }

        for (int y = 0; y < Size; y++)
        {
            for (int x = 0; x < Size; x++)
                to[(x * stride) + y] = from[(y * stride) + x];
        }
    }

    /// <summary>Working memory of one thread.</summary>
    public sealed class Workspace
    {
        // Rows a power of two of bytes apart would all fall into the same few sets of the first-level cache.
        private const int RowPadding = 16;

        private readonly int size;
        private readonly int count;
        private readonly float[] tiles;
        private readonly float[] rows;
        private readonly float[] turned;

        /// <summary>Prepares the memory.</summary>
        /// <param name="size">Side of the tiles, px.</param>
        public Workspace(int size)
        {
            this.size = size;
            count = checked(size * StrideOf(size));
            tiles = new float[2 * size * size];
            rows = new float[2 * count];
            turned = new float[2 * count];
        }

        internal Span<float> Rows => rows;

        internal Span<float> Turned => turned;

        internal Span<float> Real => rows.AsSpan(0, count);

        internal Span<float> Imaginary => rows.AsSpan(count);

        internal Span<float> TurnedReal => turned.AsSpan(0, count);

        internal Span<float> TurnedImaginary => turned.AsSpan(count);

        /// <summary>Where the grey levels of a tile of the frame are put, row by row, without NaN.</summary>
        /// <param name="part">0 for the first tile, 1 for the second.</param>
        public Span<float> Tile(int part) => tiles.AsSpan(part * size * size, size * size);

        internal static int StrideOf(int size) => size + RowPadding;
    }
}
