using BosFlow.Footage;

namespace BosFlow.Registration;

/// <summary>A picture whose missing pixels hold the mean of the others, so that it can be interpolated, and where they were.</summary>
internal sealed class FilledPicture
{
    // A quintic B-spline at a position looks at 3 pixels to each side and its prefilter decays by 0.43 a pixel:
    // six pixels from a filled one less than 1 % of its error is left.
    private const int Reach = 6;

    private readonly bool[]? touched;
    private readonly int width;

    private FilledPicture(float[] pixels, bool[]? touched, int width)
    {
        Pixels = pixels;
        this.touched = touched;
        this.width = width;
    }

    /// <summary>Grey levels without NaN.</summary>
    public float[] Pixels { get; }

    /// <summary>Fills a picture.</summary>
    public static FilledPicture Of(GrayImage image)
    {
        float[] pixels = image.Pixels.ToArray();
        double sum = 0;
        int valid = 0;
        foreach (float value in pixels)
        {
            if (!float.IsFinite(value))
                continue;
            sum += value;
            valid++;
        }

        if (valid == pixels.Length)
            return new FilledPicture(pixels, null, image.Width);
        float mean = valid == 0 ? 0 : (float)(sum / valid);
        bool[] touched = new bool[pixels.Length];
        for (int i = 0; i < pixels.Length; i++)
        {
            if (float.IsFinite(pixels[i]))
                continue;
            pixels[i] = mean;
            Mark(touched, i % image.Width, i / image.Width, image.Width, image.Height);
        }

        return new FilledPicture(pixels, touched, image.Width);
    }

    /// <summary>Whether a value interpolated at a position inside the picture rests on recorded pixels alone.</summary>
    public bool IsRecorded(double x, double y) => touched is null || !touched[((int)Math.Round(y) * width) + (int)Math.Round(x)];

    private static void Mark(bool[] touched, int x, int y, int width, int height)
    {
        for (int row = Math.Max(0, y - Reach); row <= Math.Min(height - 1, y + Reach); row++)
            touched.AsSpan((row * width) + Math.Max(0, x - Reach), Math.Min(width - 1, x + Reach) - Math.Max(0, x - Reach) + 1).Fill(true);
    }
}
