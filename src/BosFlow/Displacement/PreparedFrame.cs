using BosFlow.Footage;
using BosFlow.Numerics.Interpolation;

namespace BosFlow.Displacement;

/// <summary>A flow frame ready for deformation: spline coefficients and defects. Reused from frame to frame by one thread.</summary>
internal sealed class PreparedFrame(InterpolationOrder order)
{
    private float[] filled = [];

    public BSplineImage Spline { get; } = new((int)order);

    /// <summary>Codes of <see cref="PixelDefects"/>; null where every pixel is usable.</summary>
    public byte[]? Defects { get; private set; }

    /// <summary>Mean grey level of the usable pixels, digital numbers.</summary>
    public float MeanLevel { get; private set; }

    /// <summary>Grey levels with NaN replaced by the mean, so that filters stay finite; the defects keep such pixels out of every sum.</summary>
    public ReadOnlyMemory<float> Pixels { get; private set; }

    public int Width { get; private set; }

    public int Height { get; private set; }

    public void Load(GrayImage image)
    {
        Width = image.Width;
        Height = image.Height;
        Defects = PixelDefects.Find(image);
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
        Spline.Load(filled, Width, Height);
    }
}
