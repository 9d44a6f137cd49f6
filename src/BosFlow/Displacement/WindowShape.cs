namespace BosFlow.Displacement;

/// <summary>How the displacement may vary within an interrogation window in the last two passes.</summary>
public enum WindowShape
{
    /// <summary>A shift alone: the window's mean.</summary>
    Constant,

    /// <summary>A shift and its first derivatives; the vector is the value in the middle, also where dots are spread unevenly or a part is masked.</summary>
    Affine,

    /// <summary>A polynomial of second degree; the vector is its value in the middle, which follows bends that a mean smears.</summary>
    Quadratic,
}
