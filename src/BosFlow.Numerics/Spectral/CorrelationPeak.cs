namespace BosFlow.Numerics.Spectral;

/// <summary>Where two windows match best.</summary>
/// <param name="Dx">Displacement of the content of the moved window against the reference window, to the right, px; NaN where a window has no contrast.</param>
/// <param name="Dy">The same, down, px.</param>
/// <param name="Value">Normalised correlation at the highest whole pixel, -1 to 1; 0 where a window has no contrast.</param>
/// <param name="PeakRatio">That value divided by the highest one farther than 2 px from it, at least 1, at most 1000.</param>
public readonly record struct CorrelationPeak(double Dx, double Dy, double Value, double PeakRatio);
