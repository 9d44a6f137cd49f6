using BosFlow.Footage;

namespace BosFlow.Displacement;

/// <summary>What the engine needs of the reference picture, pixel by pixel: computed once a run. Every plane is zero at unusable pixels.</summary>
internal sealed class ReferenceTexture
{
    // Seven-point first derivative, exact for polynomials up to degree 6 (finite differences of sixth order).
    private const float D1 = 45f / 60, D2 = -9f / 60, D3 = 1f / 60;
    private const int Stencil = 3;

    /// <summary>Variance of a derivative for unit variance of independent pixels: sum of the squared stencil weights.</summary>
    public const double GradientNoiseGain = 2 * ((D1 * D1) + (D2 * D2) + (D3 * D3));

    public ReferenceTexture(GrayImage image, PixelMask measurable)
    {
        Width = image.Width;
        Height = image.Height;
        int count = Width * Height;
        Level = new float[count];
        GradientX = new float[count];
        GradientY = new float[count];
        Usable = new float[count];
        Defects = PixelDefects.Find(image);
        MeanLevel = Mean(image, measurable);
        ReadOnlySpan<byte> measured = measurable.Values;
        for (int i = 0; i < count; i++)
        {
            float pixel = image.Pixels[i];
            Level[i] = float.IsNaN(pixel) ? 0 : pixel - MeanLevel;
            Usable[i] = measured[i] != 0 && (Defects is null || Defects[i] == 0) ? 1 : 0;
        }

        for (int y = 0; y < Height; y++)
            FillGradientRow(y);
        for (int i = 0; i < count; i++)
            Level[i] *= Usable[i];
    }

    public int Width { get; }

    public int Height { get; }

    /// <summary>Mean grey level of the measured pixels, digital numbers; taken off <see cref="Level"/>.</summary>
    public float MeanLevel { get; }

    /// <summary>Grey level minus the mean.</summary>
    public float[] Level { get; }

    /// <summary>Derivative along x, digital numbers per px.</summary>
    public float[] GradientX { get; }

    /// <summary>Derivative along y, digital numbers per px.</summary>
    public float[] GradientY { get; }

    /// <summary>1 where the pixel takes part, else 0.</summary>
    public float[] Usable { get; }

    /// <summary>Codes of <see cref="PixelDefects"/>; null where the reference has none.</summary>
    public byte[]? Defects { get; }

    private static float Mean(GrayImage image, PixelMask measurable)
    {
        double sum = 0;
        long n = 0;
        ReadOnlySpan<byte> measured = measurable.Values;
        for (int i = 0; i < image.Pixels.Length; i++)
        {
            if (measured[i] != 0 && !float.IsNaN(image.Pixels[i]))
            {
                sum += image.Pixels[i];
                n++;
            }
        }

        return n == 0 ? 0 : (float)(sum / n);
    }

    // Pixels nearer to the border than the stencil take no part: their derivative would be another estimate.
    private void FillGradientRow(int y)
    {
        int row = y * Width;
        bool inside = y >= Stencil && y < Height - Stencil;
        for (int x = 0; x < Width; x++)
        {
            int i = row + x;
            if (!inside || x < Stencil || x >= Width - Stencil)
            {
                Usable[i] = 0;
                continue;
            }

            if (Usable[i] == 0)
                continue;
            float[] f = Level;
            GradientX[i] = (D1 * (f[i + 1] - f[i - 1])) + (D2 * (f[i + 2] - f[i - 2])) + (D3 * (f[i + 3] - f[i - 3]));
            int w = Width;
            GradientY[i] = (D1 * (f[i + w] - f[i - w])) + (D2 * (f[i + (2 * w)] - f[i - (2 * w)])) + (D3 * (f[i + (3 * w)] - f[i - (3 * w)]));
        }
    }
}
