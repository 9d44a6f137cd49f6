using BosFlow.Footage;
using BosFlow.Numerics.Spectral;

namespace BosFlow.Registration;

/// <summary>Correlates tiles of the reference with a frame. Holds scratch memory: one object a thread.</summary>
internal sealed class TileCorrelator
{
    // A peak must stand out of the correlation of wrong places: of pure noise the second peak is within a few per cent of the first.
    private const double LowestPeakRatio = 1.1;

    /// <summary>Share of a tile's pixels that a frame must show, 0 to 1.</summary>
    public const double LowestFrameShare = 0.4;


    private readonly TileReader reader;
    private readonly WindowCorrelator correlator;
    private readonly float[] moved;
    private readonly CorrelationPeak[] peak = new CorrelationPeak[1];

    public TileCorrelator(int size)
    {
        reader = new TileReader(size);
        correlator = new WindowCorrelator(size);
        moved = new float[size * size];
    }

    /// <summary>Side of the tiles, px.</summary>
    public int Size => reader.Size;

    /// <summary>Finds a tile in the frame.</summary>
    /// <param name="tile">Tile of the reference.</param>
    /// <param name="frame">The frame.</param>
    /// <param name="offsetX">Where to look, against the tile's own place, whole px.</param>
    /// <param name="offsetY">The same, down.</param>
    /// <param name="radius">How far to look about that place, px.</param>
    /// <param name="shift">Shift of the tile, offset included.</param>
    /// <param name="value">Normalised correlation.</param>
    /// <returns>Whether the tile was found.</returns>
    public bool TryFind(ReferenceTile tile, GrayImage frame, int offsetX, int offsetY, int radius, out TileShift shift, out double value)
    {
        shift = default;
        value = double.NaN;
        double share = reader.Read(frame, null, tile.Left + offsetX, tile.Top + offsetY, moved);
        if (share < LowestFrameShare)
            return false;
        correlator.SetWindows(0, tile.Pixels, moved);
        correlator.Correlate(peak, Math.Min(radius, (Size / 2) - 1));
        value = peak[0].Value;
        if (!IsFound(peak[0]))
            return false;
        double half = (Size - 1) / 2.0;
        shift = new TileShift(tile.Left + half, tile.Top + half, offsetX + peak[0].Dx, offsetY + peak[0].Dy);
        return true;
    }

    /// <summary>Whether a peak stands out of the correlation of wrong places.</summary>
    public static bool IsFound(CorrelationPeak peak) => double.IsFinite(peak.Dx) && double.IsFinite(peak.Dy) && peak.PeakRatio >= LowestPeakRatio;
}
