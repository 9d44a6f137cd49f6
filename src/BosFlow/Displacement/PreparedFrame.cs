using BosFlow.Footage;
using BosFlow.Numerics.Interpolation;

namespace BosFlow.Displacement;

/// <summary>A flow frame ready for deformation: spline coefficients and defects. Reused from frame to frame by one thread.</summary>
internal sealed class PreparedFrame(InterpolationOrder order)
{
    // Side of the squares for which it is known whether they hold a defect, px.
    private const int CellPixels = 16;

    private float[] filled = [];
    private float[] half = [];
    private bool[] defectCells = [];

    public BSplineImage Spline { get; } = new((int)order);

    /// <summary>Codes of <see cref="PixelDefects"/>; null where every pixel is usable.</summary>
    public byte[]? Defects { get; private set; }

    /// <summary>Mean grey level of the usable pixels, digital numbers.</summary>
    public float MeanLevel { get; private set; }

    /// <summary>Grey levels with NaN replaced by the mean, so that filters stay finite; the defects keep such pixels out of every sum.</summary>
    public ReadOnlyMemory<float> Pixels { get; private set; }

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

    public void Load(GrayImage image)
    {
        Width = image.Width;
        Height = image.Height;
        Defects = PixelDefects.Find(image);
        FindDefectCells();
        if (filled.Length != image.Pixels.Length)
            filled = new float[image.Pixels.Length];
        double sum = 0;
        long n = 0;
        foreach (float pixel in image.Pixels)
        {
            if (!float.IsNaN(pixel))
            {
                sum += pixel;
                n++;
            }
        }

        MeanLevel = n == 0 ? 0 : (float)(sum / n);
        for (int i = 0; i < filled.Length; i++)
        {
            float pixel = image.Pixels[i];
            filled[i] = float.IsNaN(pixel) ? MeanLevel : pixel;
        }

        Pixels = filled;
        Halve();
        Spline.Load(filled, Width, Height);
    }

    private int CellColumns => (Width + CellPixels - 1) / CellPixels;

    private static int Cell(float position, int length) => Math.Clamp((int)position, 0, length - 1) / CellPixels;

    private void Halve()
    {
        int width = Width / 2, height = Height / 2;
        if (half.Length != width * height)
            half = new float[width * height];
        for (int y = 0; y < height; y++)
            HalfPicture.Reduce(filled.AsSpan(2 * y * Width, Width), filled.AsSpan(((2 * y) + 1) * Width, Width), half.AsSpan(y * width, width));
    }

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
