namespace BosFlow.Displacement;

/// <summary>Where the interrogation windows of one pass lie: a regular grid of squares that all lie within the picture.</summary>
internal sealed class WindowLayout
{
    private WindowLayout(int size, int spacing, int firstX, int firstY, int columns, int rows)
    {
        Size = size;
        Spacing = spacing;
        FirstX = firstX;
        FirstY = firstY;
        Grid = new NodeGrid(firstX + ((size - 1) / 2.0), firstY + ((size - 1) / 2.0), spacing, columns, rows);
    }

    /// <summary>Window centres, px of the reference.</summary>
    public NodeGrid Grid { get; }

    /// <summary>Side of a window, px.</summary>
    public int Size { get; }

    /// <summary>Distance between neighbouring windows, px.</summary>
    public int Spacing { get; }

    /// <summary>First pixel column of the first window.</summary>
    public int FirstX { get; }

    /// <summary>First pixel row of the first window.</summary>
    public int FirstY { get; }

    /// <summary>Fills a picture with windows; what is left over is shared between the borders.</summary>
    public static WindowLayout Fill(int width, int height, int size, int spacing)
    {
        if (width < size || height < size)
            throw new InputDataException($"The picture of {width} x {height} px is smaller than one window of {size} x {size} px: choose a smaller window_px.");
        int columns = ((width - size) / spacing) + 1;
        int rows = ((height - size) / spacing) + 1;
        int firstX = (width - size - ((columns - 1) * spacing)) / 2;
        int firstY = (height - size - ((rows - 1) * spacing)) / 2;
        return new WindowLayout(size, spacing, firstX, firstY, columns, rows);
    }

    /// <summary>Smaller windows around the same nodes.</summary>
    /// <param name="size">Their side, px, smaller than this one's by an even number.</param>
    public WindowLayout Within(int size) => new(size, Spacing, FirstX + ((Size - size) / 2), FirstY + ((Size - size) / 2), Grid.Columns, Grid.Rows);

    /// <summary>First pixel column of the windows in a column of nodes.</summary>
    public int Left(int column) => FirstX + (column * Spacing);

    /// <summary>First pixel row of the windows in a row of nodes.</summary>
    public int Top(int row) => FirstY + (row * Spacing);

    /// <summary>Weights along one side of a window, largest near 1.</summary>
    public float[] Weights(WindowWeighting weighting)
    {
        float[] weights = new float[Size];
        double centre = (Size - 1) / 2.0, sigma = Size / 4.0;
        for (int i = 0; i < Size; i++)
            weights[i] = weighting == WindowWeighting.TopHat ? 1 : (float)Math.Exp(-(i - centre) * (i - centre) / (2 * sigma * sigma));
        return weights;
    }
}
