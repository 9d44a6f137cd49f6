using BosFlow.Footage;
using BosFlow.Numerics.Spectral;

namespace BosFlow.Registration;

/// <summary>Looks for large tiles of the reference over the whole range of shifts. Safe for several threads: each call is given working memory.</summary>
internal sealed class CoarseSearch
{
    private readonly IReadOnlyList<ReferenceTile> tiles;
    private readonly int size;
    private readonly int rings;
    private readonly TileSpectra spectra;

    /// <summary>Transforms the tiles.</summary>
    /// <param name="tiles">Tiles of the reference.</param>
    /// <param name="size">Side of a tile, px.</param>
    /// <param name="largestShift">Largest shift searched for, px.</param>
    public CoarseSearch(IReadOnlyList<ReferenceTile> tiles, int size, int largestShift)
    {
        this.tiles = tiles;
        this.size = size;
        spectra = new TileSpectra(size, [.. tiles.Select(tile => tile.Pixels)]);
        // One tile sees three eighths of its side well in each direction; beyond, it looks from displaced places.
        rings = Math.Max(0, (largestShift - (size * 3 / 8) + Step - 1) / Step);
    }

    /// <summary>Number of tiles.</summary>
    public int Count => tiles.Count;

    private int Step => size / 2;

    /// <summary>Finds some of the tiles in a frame.</summary>
    /// <param name="frame">The frame.</param>
    /// <param name="from">First tile.</param>
    /// <param name="to">One beyond the last tile.</param>
    /// <param name="farthest">Largest shift in either direction that counts, px.</param>
    /// <param name="work">Working memory.</param>
    /// <param name="cancellationToken">Stops between two tiles.</param>
    /// <returns>Shifts of the tiles that were found, in their order.</returns>
    public List<TileShift> Find(GrayImage frame, int from, int to, double farthest, Workspace work, CancellationToken cancellationToken)
    {
        var found = new List<TileShift>(to - from);
        for (int tile = from; tile < to; tile += 2)
        {
            // The last one of an odd number is looked for twice.
            int partner = Math.Min(tile + 1, to - 1);
            (TileShift? first, TileShift? second) = FindPair(frame, tile, partner, farthest, work, cancellationToken);
            if (first is TileShift one)
                found.Add(one);
            if (partner != tile && second is TileShift other)
                found.Add(other);
        }

        return found;
    }

    private (TileShift? First, TileShift? Second) FindPair(GrayImage frame, int first, int second, double farthest, Workspace work, CancellationToken cancellationToken)
    {
        (TileShift? Shift, double Value) bestFirst = (null, double.NegativeInfinity), bestSecond = bestFirst;
        for (int down = -rings; down <= rings; down++)
        {
            for (int right = -rings; right <= rings; right++)
            {
                cancellationToken.ThrowIfCancellationRequested();
                (int x, int y) = (right * Step, down * Step);
                bool seesFirst = Read(frame, first, x, y, work, 0), seesSecond = Read(frame, second, x, y, work, 1);
                if (!seesFirst && !seesSecond)
                    continue;
                (CorrelationPeak peakFirst, CorrelationPeak peakSecond) = spectra.Correlate(first, second, (size / 2) - 1, work.Correlation);
                bestFirst = Better(bestFirst, seesFirst, first, x, y, peakFirst, farthest);
                bestSecond = Better(bestSecond, seesSecond, second, x, y, peakSecond, farthest);
            }
        }

        return (bestFirst.Shift, bestSecond.Shift);
    }

    private bool Read(GrayImage frame, int tile, int x, int y, Workspace work, int part) =>
        work.Reader.Read(frame, null, tiles[tile].Left + x, tiles[tile].Top + y, work.Correlation.Tile(part)) >= TileCorrelator.LowestFrameShare;

    private (TileShift? Shift, double Value) Better((TileShift? Shift, double Value) best, bool seen, int tile, int x, int y, CorrelationPeak peak, double farthest)
    {
        if (!seen || !TileCorrelator.IsFound(peak) || !(peak.Value > best.Value))
            return best;
        double half = (size - 1) / 2.0;
        var shift = new TileShift(tiles[tile].Left + half, tiles[tile].Top + half, x + peak.Dx, y + peak.Dy);
        return Math.Abs(shift.U) <= farthest && Math.Abs(shift.V) <= farthest ? (shift, peak.Value) : best;
    }

    /// <summary>Working memory of one thread.</summary>
    /// <param name="size">Side of a tile, px.</param>
    internal sealed class Workspace(int size)
    {
        public TileReader Reader { get; } = new(size);

        public TileSpectra.Workspace Correlation { get; } = new(size);
    }
}
