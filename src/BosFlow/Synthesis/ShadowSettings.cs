namespace BosFlow.Synthesis;

/// <summary>A straight edge of a shadow that runs over the board. It lies on the board and moves with it in the picture.</summary>
/// <param name="Percent">Share of the light that it takes, percent, 0 to 100.</param>
/// <param name="PositionPixels">Distance of the edge from the middle of the view at rest at time 0, px, along <paramref name="Degrees"/>.</param>
/// <param name="Degrees">Direction towards the dark side, degrees counter-clockwise as seen, 0 = right.</param>
/// <param name="PixelsPerSecond">Speed of the edge along that direction, px/s.</param>
/// <param name="WidthPixels">Width of the edge's half-shadow: four standard deviations of the Gaussian that blurs it, px, greater than 0.</param>
public sealed record ShadowSettings(double Percent, double PositionPixels, double Degrees, double PixelsPerSecond, double WidthPixels);
