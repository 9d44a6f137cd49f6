using BosFlow.Numerics.Spectral;

namespace BosFlow.Displacement;

/// <summary>What the first pass needs of the reference: where its windows lie, which are usable, and their spectra at half resolution. Computed once a run.</summary>
internal sealed class CoarseReference
{
    private const double LeastUsableShare = 0.3;

    // Unusable pixels hold the picture's mean: so few of them, as along the picture's border, do no harm.
    private const double NearlyAll = 0.9;

    private const int LargestSize = 128;

    private readonly ReferenceTexture texture;
    private readonly CoarseUsability[] usability;

    /// <summary>Prepares the windows.</summary>
    /// <param name="texture">The reference.</param>
    /// <param name="size">Side of a window, px; halved until it fits in the picture.</param>
    /// <param name="spacing">Distance between windows, px; halved likewise.</param>
    public CoarseReference(ReferenceTexture texture, int size, int spacing)
    {
        this.texture = texture;
        while (size > Math.Min(texture.Width, texture.Height))
            (size, spacing) = (size / 2, spacing / 2);
        Layout = WindowLayout.Fill(texture.Width, texture.Height, size, spacing);
        usability = new CoarseUsability[Layout.Grid.Count];
        for (int node = 0; node < usability.Length; node++)
            usability[node] = Judge(node);
        if (size / 2 is not (16 or 32 or 64))
            return;
        Halved = [.. Enumerable.Range(0, usability.Length).Where(node => usability[node] == CoarseUsability.Full)];
        int width = texture.Width / 2, height = texture.Height / 2;
        float[] half = new float[width * height];
        for (int y = 0; y < height; y++)
            HalfPicture.Reduce(texture.Level.AsSpan(2 * y * texture.Width, texture.Width), texture.Level.AsSpan(((2 * y) + 1) * texture.Width, texture.Width), half.AsSpan(y * width, width));
        if (Halved.Length > 0)
            Spectra = new ReferenceSpectra(size / 2, half, width, [.. Halved.Select(node => HalfCorner(node, 0, 0))]);
    }

    public WindowLayout Layout { get; }

    /// <summary>Nodes whose windows are correlated at half resolution first, in the order of <see cref="Spectra"/>.</summary>
    public int[] Halved { get; } = [];

    /// <summary>Spectra of those windows; null where there is none.</summary>
    public ReferenceSpectra? Spectra { get; }

    public CoarseUsability UsabilityOf(int node) => usability[node];

    /// <summary>First pixel of a window.</summary>
    public (int Left, int Top) Corner(int node) => (Layout.Left(node % Layout.Grid.Columns), Layout.Top(node / Layout.Grid.Columns));

    /// <summary>Place of a window's first pixel in the half picture, moved by whole pixels of it.</summary>
    public int HalfCorner(int node, int shiftX, int shiftY)
    {
        (int left, int top) = Corner(node);
        return (((top / 2) + shiftY) * (texture.Width / 2)) + (left / 2) + shiftX;
    }

    /// <summary>Normalised correlation at full resolution, at a whole-pixel displacement: of every eighth row of what lies within both pictures; 0 where that is less than half of the window.</summary>
    public double CorrelationAt(int node, int shiftX, int shiftY, PreparedFrame frame)
    {
        (int left, int top) = Corner(node);
        // Whole vectors: a window is 32 px or more wide.
        int skipped = RoundUp(Math.Max(0, -left - shiftX)), columns = Layout.Size - skipped - RoundUp(Math.Max(0, left + shiftX + Layout.Size - frame.Width));
        int first = Math.Max(top, -shiftY), end = Math.Min(top + Layout.Size, frame.Height - shiftY);
        if (columns * (end - first) < Layout.Size * Layout.Size / 2 || columns <= 0)
            return 0;
        left += skipped;
        var sums = default(CorrelationSums);
        Span<float> room = stackalloc float[LargestSize];
        for (int y = first; y < end; y += 8)
            sums.Add(texture.Level.AsSpan((y * texture.Width) + left, columns), frame.Levels(((y + shiftY) * frame.Width) + left + shiftX, columns, room));
        return sums.Correlation;
    }

    private static int RoundUp(int pixels) => (pixels + 15) / 16 * 16;

    private CoarseUsability Judge(int node)
    {
        (int left, int top) = Corner(node);
        double count = 0;
        for (int y = 0; y < Layout.Size; y++)
        {
            foreach (float usable in texture.Usable.AsSpan(((top + y) * texture.Width) + left, Layout.Size))
                count += usable;
        }

        double full = Layout.Size * Layout.Size;
        return count >= NearlyAll * full ? CoarseUsability.Full : count >= LeastUsableShare * full ? CoarseUsability.Partial : CoarseUsability.TooLittle;
    }
}
