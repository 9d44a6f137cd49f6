using BosFlow.Footage;
using BosFlow.Numerics.Spectral;

namespace BosFlow.Registration;

/// <summary>Looks for small tiles of the reference about the places where a motion puts them. Safe for several threads: each call is given working memory.</summary>
internal sealed class FineSearch
{
    private readonly IReadOnlyList<ReferenceTile> tiles;
    private readonly int size;
    private readonly int radius;
    private readonly ReferenceSpectra spectra;

    /// <summary>Transforms the tiles.</summary>
    /// <param name="tiles">Tiles of the reference.</param>
    /// <param name="size">Side of a tile, px: 16, 32 or 64.</param>
    /// <param name="radius">How far to look, px; less where the tiles are too small for it.</param>
    public FineSearch(IReadOnlyList<ReferenceTile> tiles, int size, int radius)
    {
        this.tiles = tiles;
        this.size = size;
        this.radius = Math.Min(radius, (size / 2) - 2);
        // The tiles one below the other, as a picture of their width.
        float[] picture = [.. tiles.SelectMany(tile => tile.Pixels)];
        spectra = new ReferenceSpectra(size, picture, size, Corners(tiles.Count));
    }

    /// <summary>Number of tiles.</summary>
    public int Count => tiles.Count;

    /// <summary>Prepares working memory for one thread.</summary>
    public Workspace NewWorkspace() => new(this);

    /// <summary>Finds the tiles in a frame.</summary>
    /// <param name="frame">The frame.</param>
    /// <param name="start">Where to look.</param>
    /// <param name="work">Working memory.</param>
    /// <param name="cancellationToken">Stops between two batches of tiles.</param>
    /// <returns>Shifts of the tiles that were found, in their order.</returns>
    public List<TileShift> Find(GrayImage frame, IPictureMotion start, Workspace work, CancellationToken cancellationToken)
    {
        var found = new List<TileShift>(tiles.Count);
        for (int batch = 0; batch < spectra.Batches; batch++)
        {
            cancellationToken.ThrowIfCancellationRequested();
            int first = batch * spectra.WindowsPerBatch;
            int count = Math.Min(spectra.WindowsPerBatch, tiles.Count - first);
            for (int i = 0; i < count; i++)
                work.Offsets[i] = Read(frame, tiles[first + i], start, work, i);
            spectra.Correlate(batch, work.Picture, size, work.Corners.AsSpan(0, count), radius, work.Correlation, work.Peaks);
            for (int i = 0; i < count; i++)
            {
                if (TileCorrelator.IsFound(work.Peaks[i]))
                    found.Add(Shift(tiles[first + i], work.Offsets[i], work.Peaks[i]));
            }
        }

        return found;
    }

    // What the frame does not show is left blank, which nothing is found in.
    private (int X, int Y) Read(GrayImage frame, ReferenceTile tile, IPictureMotion start, Workspace work, int place)
    {
        double half = (size - 1) / 2.0;
        (double u, double v) = start.DisplacementAt(tile.Left + half, tile.Top + half);
        (int x, int y) = ((int)Math.Round(u), (int)Math.Round(v));
        Span<float> target = work.Picture.AsSpan(place * size * size, size * size);
        if (work.Reader.Read(frame, null, tile.Left + x, tile.Top + y, target) < TileCorrelator.LowestFrameShare)
            target.Clear();
        return (x, y);
    }

    private TileShift Shift(ReferenceTile tile, (int X, int Y) offset, CorrelationPeak peak)
    {
        double half = (size - 1) / 2.0;
        return new TileShift(tile.Left + half, tile.Top + half, offset.X + peak.Dx, offset.Y + peak.Dy);
    }

    private int[] Corners(int count) => [.. Enumerable.Range(0, count).Select(i => i * size * size)];

    /// <summary>Working memory of one thread.</summary>
    internal sealed class Workspace
    {
        public Workspace(FineSearch search)
        {
            int count = search.spectra.WindowsPerBatch;
            Reader = new TileReader(search.size);
            Correlation = new ReferenceSpectra.Workspace(search.spectra);
            Picture = new float[count * search.size * search.size];
            Corners = search.Corners(count);
            Offsets = new (int X, int Y)[count];
            Peaks = new CorrelationPeak[count];
        }

        public TileReader Reader { get; }

        public ReferenceSpectra.Workspace Correlation { get; }

        public float[] Picture { get; }

        public int[] Corners { get; }

        public (int X, int Y)[] Offsets { get; }

        public CorrelationPeak[] Peaks { get; }
    }
}
