namespace BosFlow.Numerics.Interpolation;

/// <summary>One picture of a scene that is to be known more finely: its grey levels, and where its pixels lie in the scene.</summary>
public sealed class FineObservation
{
    /// <summary>Pixels between two places at which displacements are kept; between them they are linear.</summary>
    public const int Step = 16;

    private readonly float[] pixels;
    private readonly float[] dx;
    private readonly float[] dy;

    /// <summary>Takes a picture.</summary>
    /// <param name="width">Pixels in a row.</param>
    /// <param name="height">Rows.</param>
    /// <param name="pixels">Grey levels, row-major; NaN = not used. The array is given up by the caller.</param>
    /// <param name="sceneOf">Position in the scene of a pixel of the picture, px: column and row to column and row.</param>
    public FineObservation(int width, int height, float[] pixels, Func<double, double, (double X, double Y)> sceneOf)
    {
        ArgumentNullException.ThrowIfNull(pixels);
        ArgumentNullException.ThrowIfNull(sceneOf);
        if (pixels.Length != checked(width * height))
            throw new ArgumentException($"{pixels.Length} pixels given for {width} x {height}.", nameof(pixels));
        Width = width;
        Height = height;
        this.pixels = pixels;
        Places = ((width - 1 + Step - 1) / Step) + 1;
        dx = new float[height * Places];
        dy = new float[height * Places];
        for (int y = 0; y < height; y++)
        {
            for (int k = 0; k < Places; k++)
            {
                (double x, double row) = sceneOf(k * Step, y);
                dx[(y * Places) + k] = (float)(x - (k * Step));
                dy[(y * Places) + k] = (float)(row - y);
            }
        }
    }

    /// <summary>Pixels in a row.</summary>
    public int Width { get; }

    /// <summary>Rows.</summary>
    public int Height { get; }

    private int Places { get; }

    /// <summary>Grey levels of a row; NaN = not used.</summary>
    public ReadOnlySpan<float> Row(int y) => pixels.AsSpan(y * Width, Width);

    /// <summary>Least and greatest row of the scene that a row of pixels reaches, px.</summary>
    public (float Least, float Most) Reach(int y)
    {
        float least = float.PositiveInfinity, most = float.NegativeInfinity;
        foreach (float shift in dy.AsSpan(y * Places, Places))
            (least, most) = (Math.Min(least, y + shift), Math.Max(most, y + shift));
        return (least, most);
    }

    /// <summary>Where the pixels of a row lie in the scene, minus their own position, px; clamped to the scene.</summary>
    public void Displacements(int y, Span<float> across, Span<float> down)
    {
        Expand(dx.AsSpan(y * Places, Places), across);
        Expand(dy.AsSpan(y * Places, Places), down);
        for (int x = 0; x < Width; x++)
        {
            across[x] = Math.Clamp(across[x], -x, Width - 1 - x);
            down[x] = Math.Clamp(down[x], -y, Height - 1 - y);
        }
    }

    private void Expand(ReadOnlySpan<float> places, Span<float> row)
    {
        for (int x = 0; x < Width; x++)
        {
            int k = x / Step;
            float t = (x % Step) / (float)Step;
            row[x] = t == 0 ? places[k] : places[k] + (t * (places[k + 1] - places[k]));
        }
    }
}
