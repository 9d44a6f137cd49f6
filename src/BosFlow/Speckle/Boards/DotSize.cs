namespace BosFlow.Speckle.Boards;

/// <summary>One size of the dots of a board; several serve several zooms.</summary>
/// <param name="DiameterMetres">Diameter of the disc as it shall be on the paper, m, greater than 0.</param>
/// <param name="Share">Part of the covered area that dots of this size cover, greater than 0; the shares of a board sum to 1.</param>
public sealed record DotSize(double DiameterMetres, double Share);
