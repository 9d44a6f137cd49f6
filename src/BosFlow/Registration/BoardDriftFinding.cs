namespace BosFlow.Registration;

/// <summary>How the background lay in other flow-off frames against the reference, beyond what the registration takes out of every frame: bending by heat, a hinge that gave way.</summary>
/// <param name="Description">Which frames.</param>
/// <param name="TimeSeconds">Mean time of these frames, s; their mean number where the footage has no times.</param>
/// <param name="FrameCount">Number of frames combined.</param>
/// <param name="RmsPixels">RMS of the drift over the measured vectors, both components together, px.</param>
/// <param name="LargestPixels">Length of the largest one, px.</param>
/// <param name="NoisePixels">What the noise of the pictures alone would give for the RMS, px.</param>
/// <param name="IsRemoved">Whether the drift was taken out of the frames, in proportion to time.</param>
public sealed record BoardDriftFinding(string Description, double TimeSeconds, int FrameCount, double RmsPixels, double LargestPixels, double NoisePixels, bool IsRemoved);
