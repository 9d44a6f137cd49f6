using System.Buffers;
using BosFlow.Footage;
using BosFlow.Numerics.Interpolation;

namespace BosFlow.Displacement;

/// <summary>A flow frame ready for deformation: spline coefficients and defects. Reused from frame to frame by one thread.</summary>
internal sealed class PreparedFrame(InterpolationOrder order)
{
    // Side of the squares for which it is known whether they hold a defect, px.
    private const int CellPixels = 16;

    // Even, so that a part holds whole pairs of rows.
    private const int RowsPerPart = BSplineImage.RowsPerPart;

    private GrayImage? picture;
    private FrameScan[] scans = [];
    private bool anyMissing;
    private float[] filled = [];
    private float[] half = [];
    private bool[] defectCells = [];

    public BSplineImage Spline { get; } = new((int)order);

    /// <summary>Codes of <see cref="PixelDefects"/>; null where every pixel is usable.</summary>
    public byte[]? Defects { get; private set; }

    /// <summary>Mean grey level of the usable pixels, digital numbers.</summary>
    public float MeanLevel { get; private set; }

    /// <summary>Some grey levels (<see cref="GrayImage.Levels"/>), with NaN replaced by the mean, so that filters stay finite; the defects keep such pixels out of every sum.</summary>
    public ReadOnlySpan<float> Levels(int first, int count, Span<float> room) => anyMissing ? filled.AsSpan(first, count) : picture!.Levels(first, count, room);

    /// <summary>The same at half resolution.</summary>
    public ReadOnlyMemory<float> Half => half;

    /// <summary>Code of <see cref="PixelDefects"/> at the pixel nearest to a position; positions outside are moved to the border.</summary>
    public byte DefectAt(float x, float y)
    {
        if (Defects is null)
            return 0;
        int column = Math.Clamp((int)MathF.Round(x), 0, Width - 1), row = Math.Clamp((int)MathF.Round(y), 0, Height - 1);
        return Defects[(row * Width) + column];
    }

    /// <summary>Whether there may be a defect within a rectangle, px.</summary>
    public bool AnyDefect(float left, float top, float right, float bottom)
    {
        if (Defects is null)
            return false;
        int firstX = Cell(left, Width), lastX = Cell(right + 1, Width), firstY = Cell(top, Height), lastY = Cell(bottom + 1, Height);
        for (int y = firstY; y <= lastY; y++)
        {
            if (defectCells.AsSpan((y * CellColumns) + firstX, lastX - firstX + 1).Contains(true))
                return true;
        }

        return false;
    }

    public int Width { get; private set; }

    public int Height { get; private set; }

    /// <summary>Takes a frame; it is held until <see cref="Release"/>.</summary>
    public void Load(GrayImage image, FrameThreads threads, CancellationToken cancellationToken)
    {
        picture = image;
        Width = image.Width;
        Height = image.Height;
        Spline.Reserve(Width, Height);
        if (scans.Length != Height)
            scans = new FrameScan[Height];
        if (half.Length != Width / 2 * (Height / 2))
            half = new float[Width / 2 * (Height / 2)];
        threads.Run(Spline.Parts, ScanAndFilter, cancellationToken);
        Judge(image);
        if (anyMissing)
        {
            threads.Run(Spline.Parts, FillMissing, cancellationToken);
            threads.Run(Spline.Parts, part => Spline.Filter(part, filled), cancellationToken);
        }

        Spline.Finish();
    }

    /// <summary>Lets go of the frame's picture.</summary>
    public void Release() => picture = null;

    // Nearly every frame is complete: its pixels are filtered while they are in the cache, before that is known. Codes become floats in the memory that the filter works in.
    private void ScanAndFilter(int part)
    {
        (int top, int rows) = Spline.RowsFor(part);
        float[] band = ArrayPool<float>.Shared.Rent(rows * Width);
        ReadOnlySpan<float> levels = picture!.Levels(top * Width, rows * Width, band);
        int first = part * RowsPerPart;
        Scan(first, levels[((first - top) * Width)..]);
        Spline.FilterRows(part, levels, band);
        ArrayPool<float>.Shared.Return(band);
    }

    // Rows from the first of a part on.
    private void Scan(int first, ReadOnlySpan<float> levels)
    {
        float white = float.IsNaN(picture!.WhiteLevel) ? float.PositiveInfinity : picture.WhiteLevel;
        for (int y = first; y < Math.Min(first + RowsPerPart, Height); y++)
        {
            ReadOnlySpan<float> row = levels.Slice((y - first) * Width, Width);
            scans[y] = FrameScan.Of(row, white);
            if ((y & 1) != 0)
                HalfPicture.Reduce(levels.Slice((y - 1 - first) * Width, Width), row, HalfRow(y / 2));
        }
    }

    private Span<float> HalfRow(int y) => half.AsSpan(y * (Width / 2), Width / 2);

    // Sums in the order of the rows, whoever looked at them.
    private void Judge(GrayImage image)
    {
        double sum = 0;
        long missing = 0;
        foreach (FrameScan scan in scans)
        {
            sum += scan.Sum;
            missing += scan.Missing;
        }

        long recorded = ((long)Width * Height) - missing;
        MeanLevel = recorded == 0 ? 0 : (float)(sum / recorded);
        anyMissing = missing > 0;
        Defects = anyMissing || GlareScreen.MayHaveGlare(scans) ? PixelDefects.Find(image) : null;
        FindDefectCells();
        if (anyMissing && filled.Length != Width * Height)
            filled = new float[Width * Height];
    }

    private void FillMissing(int part)
    {
        for (int y = part * RowsPerPart; y < Math.Min((part + 1) * RowsPerPart, Height); y++)
        {
            ReadOnlySpan<float> row = picture!.Row(y);
            Span<float> target = filled.AsSpan(y * Width, Width);
            for (int x = 0; x < row.Length; x++)
                target[x] = float.IsNaN(row[x]) ? MeanLevel : row[x];
            if ((y & 1) != 0)
                HalfPicture.Reduce(filled.AsSpan((y - 1) * Width, Width), target, HalfRow(y / 2));
        }
    }

    private int CellColumns => (Width + CellPixels - 1) / CellPixels;

    private static int Cell(float position, int length) => Math.Clamp((int)position, 0, length - 1) / CellPixels;

    private void FindDefectCells()
    {
        if (Defects is null)
            return;
        defectCells = new bool[CellColumns * ((Height + CellPixels - 1) / CellPixels)];
        for (int y = 0; y < Height; y++)
        {
            ReadOnlySpan<byte> row = Defects.AsSpan(y * Width, Width);
            for (int cell = 0; cell < CellColumns; cell++)
            {
                int left = cell * CellPixels;
                if (row[left..Math.Min(Width, left + CellPixels)].ContainsAnyExcept((byte)0))
                    defectCells[(y / CellPixels * CellColumns) + cell] = true;
            }
        }
    }
}
