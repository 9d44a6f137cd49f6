namespace BosFlow.Displacement;

/// <summary>Where a pass over a frame reads and deforms it.</summary>
public enum Sampling
{
    /// <summary>Everywhere, as the first pass over a frame must.</summary>
    Everywhere,

    /// <summary>Where the displacement has moved too far since the frame was read; elsewhere what was summed before is moved to first order.</summary>
    WhereMoved,
}
