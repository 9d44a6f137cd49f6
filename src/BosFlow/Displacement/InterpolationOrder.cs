namespace BosFlow.Displacement;

/// <summary>Order of the B-spline that interpolates between pixels.</summary>
public enum InterpolationOrder
{
    /// <summary>Cubic: 4 x 4 pixels.</summary>
    Cubic = 3,

    /// <summary>Quintic: 6 x 6 pixels; a quarter of cubic's bias on small dots.</summary>
    Quintic = 5,
}
