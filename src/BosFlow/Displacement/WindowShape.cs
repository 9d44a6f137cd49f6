namespace BosFlow.Displacement;

/// <summary>How the displacement may vary within an interrogation window in the last two passes.</summary>
public enum WindowShape
{
    /// <summary>A shift alone: the window's mean. Windows that are sums of blocks and of which a tenth or more is not usable, masked or beyond the border, are affine all the same, since the mean over the rest belongs to another place than the vector.</summary>
    Constant,

    /// <summary>A shift and its first derivatives; the vector is the value in the middle, also where dots are spread unevenly.</summary>
    Affine,

    /// <summary>A polynomial of second degree; the vector is its value in the middle, which follows bends that a mean smears.</summary>
    Quadratic,
}
