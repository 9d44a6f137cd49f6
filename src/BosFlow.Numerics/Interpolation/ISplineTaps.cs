using BosFlow.Numerics.Vectors;

namespace BosFlow.Numerics.Interpolation;

/// <summary>The weighted sum over the pixels around a position, for one order of spline.</summary>
internal interface ISplineTaps
{
    /// <summary>Grey levels at a fraction of a pixel right of and below neighbouring whole positions.</summary>
    /// <param name="origin">First coefficient.</param>
    /// <param name="place">Place of the first lane's whole position among the coefficients.</param>
    /// <param name="stride">Coefficients from one row to the next.</param>
    /// <param name="tx">Fractions to the right, 0 to 1.</param>
    /// <param name="ty">Fractions down, 0 to 1.</param>
    static abstract T Sample<T>(ref float origin, nint place, nint stride, T tx, T ty)
        where T : struct, ILanes<T>;
}
