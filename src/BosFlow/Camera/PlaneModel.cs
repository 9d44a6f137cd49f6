namespace BosFlow.Camera;

/// <summary>What may lie between a plane and its picture.</summary>
public enum PlaneModel
{
    /// <summary>A camera anywhere before the plane, focal length and tilt unknown.</summary>
    Photo,

    /// <summary>A flat-bed scanner: a turn, a shift and one scale; only the printer can have stretched x against y.</summary>
    Scan,
}
