namespace BosFlow.Registration;

/// <summary>A readout time that was found from footage.</summary>
/// <param name="Seconds">Time from the reading of the first row of a frame to that of the last, s.</param>
/// <param name="SigmaSeconds">Its standard uncertainty, s.</param>
/// <param name="FrameCount">Number of frames that it was found from.</param>
public sealed record ReadoutEstimate(double Seconds, double SigmaSeconds, int FrameCount);
