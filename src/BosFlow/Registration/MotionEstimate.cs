namespace BosFlow.Registration;

/// <summary>A first estimate of the background's motion, good to about 0.3 px: where the correlation engine starts to look.</summary>
/// <param name="Motion">Motion between reference and frame; the identity where none was found.</param>
/// <param name="InlierShare">Share of the tiles that agree with the motion, 0 to 1.</param>
/// <param name="Failure">One sentence that says why no motion was found; null where one was.</param>
public sealed record MotionEstimate(IPictureMotion Motion, double InlierShare, string? Failure);
