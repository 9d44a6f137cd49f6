namespace BosFlow.Synthesis;

/// <summary>One tone of a vibration.</summary>
/// <param name="Hertz">Frequency, Hz, greater than 0, at most 100000.</param>
/// <param name="AmplitudePixels">Largest shift, in x and in y each, px, 0 to 200.</param>
public readonly record struct VibrationLine(double Hertz, double AmplitudePixels);
