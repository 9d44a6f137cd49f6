namespace BosFlow.Synthesis;

/// <summary>The stretch along z in which a ray meets the flow.</summary>
/// <param name="Start">First z, m.</param>
/// <param name="End">Last z, m; not greater than Start where the ray misses the flow.</param>
/// <param name="HasFaces">Whether the index jumps at both ends, across faces square to the optical axis, instead of fading out.</param>
public readonly record struct FlowStretch(double Start, double End, bool HasFaces)
{
    /// <summary>A ray that misses the flow.</summary>
    public static FlowStretch None => default;

    /// <summary>Whether the ray meets the flow.</summary>
    public bool MeetsFlow => End > Start;
}
