using BosFlow.Density;
using BosFlow.Displacement;

namespace BosFlow.Results.Maps;

/// <summary>How the flags of a result are shown.</summary>
public static class CellStates
{
    private const VectorFlags Doubtful = VectorFlags.OutlierReplaced | VectorFlags.LowCorrelation | VectorFlags.NotConverged;
    private const DensityFlags Questionable = DensityFlags.NotPositive | DensityFlags.Bridged | DensityFlags.Asymmetric;

    /// <summary>Of vectors: masked ones hatched, replaced or doubtful ones marked.</summary>
    /// <param name="flags">What happened to each vector.</param>
    public static CellState[] Of(IReadOnlyList<VectorFlags> flags) =>
        [.. flags.Select(f => (f & VectorFlags.Masked) != 0 ? CellState.Masked : (f & Doubtful) != 0 ? CellState.Marked : CellState.Plain)];

    /// <summary>Of densities: masked places without a value hatched; bridged, contradictory or impossible values marked.</summary>
    /// <param name="flags">What holds for each density.</param>
    /// <param name="vectors">What happened to the vector of each place.</param>
    public static CellState[] Of(IReadOnlyList<DensityFlags> flags, IReadOnlyList<VectorFlags> vectors) =>
    [
        .. flags.Zip(vectors, (density, vector) =>
            (density & DensityFlags.NotMeasured) != 0 ? (vector & VectorFlags.Masked) != 0 ? CellState.Masked : CellState.Plain
            : (density & Questionable) != 0 ? CellState.Marked : CellState.Plain),
    ];
}
