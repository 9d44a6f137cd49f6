namespace BosFlow.Registration;

/// <summary>How the background may move in the picture between the reference and a frame.</summary>
public enum MotionModel
{
    /// <summary>Nothing is taken out.</summary>
    None,

    /// <summary>Shift in x and y: 2 parameters.</summary>
    Shift,

    /// <summary>Shift and rotation: 3 parameters.</summary>
    Rigid,

    /// <summary>Shift, rotation and scale: 4 parameters.</summary>
    Similarity,

    /// <summary>Full plane-to-plane projection: 8 parameters.</summary>
    Homography,
}
