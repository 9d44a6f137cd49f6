namespace BosFlow.Triage;

/// <summary>What one sampled frame shows.</summary>
public sealed record FrameReading
{
    /// <summary>Number of the frame.</summary>
    public required int Index { get; init; }

    /// <summary>Time since the first frame, s; NaN where unknown.</summary>
    public required double TimeSeconds { get; init; }

    /// <summary>Which run of neighbours it belongs to, from 0.</summary>
    public required int Burst { get; init; }

    /// <summary>Why there is no picture, one sentence; null where there is one.</summary>
    public string? Failure { get; init; }

    /// <summary>Mean grey level above black, share of white.</summary>
    public double Level { get; init; } = double.NaN;

    /// <summary>Share of the pixels at white.</summary>
    public double ClippedHigh { get; init; } = double.NaN;

    /// <summary>Share of the pixels at black.</summary>
    public double ClippedLow { get; init; } = double.NaN;

    /// <summary>Mean difference of neighbours across the borders of blocks of 8 px over that inside them; 1 without blocks.</summary>
    public double Blockiness { get; init; } = double.NaN;

    /// <summary>Tiles over the picture, row after row.</summary>
    public IReadOnlyList<TileReading> Tiles { get; init; } = [];

    /// <summary>Median over the tiles that show a pattern; NaN where none does.</summary>
    /// <param name="value">What of a tile.</param>
    public double Median(Func<TileReading, double> value) => Spread.Median(Tiles.Where(tile => tile.HasPattern).Select(value));
}
