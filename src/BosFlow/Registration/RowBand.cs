namespace BosFlow.Registration;

/// <summary>A band of rows of the reference with the tiles that it is looked for by.</summary>
/// <param name="Middle">Middle row, px.</param>
/// <param name="Tiles">The tiles, one band high.</param>
internal sealed record RowBand(double Middle, IReadOnlyList<ReferenceTile> Tiles);
