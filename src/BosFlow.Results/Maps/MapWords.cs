namespace BosFlow.Results.Maps;

/// <summary>How a quantity is named and coloured on its map.</summary>
/// <param name="Title">The quantity in words.</param>
/// <param name="Symbol">Short name for the colour bar.</param>
/// <param name="Scale">Kind of colours.</param>
/// <param name="Note">One sentence below the title; empty for none.</param>
/// <param name="Caption">What it is and where it comes from.</param>
internal sealed record MapWords(string Title, string Symbol, MapScale Scale, string Note, string Caption);
