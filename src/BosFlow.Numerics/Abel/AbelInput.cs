namespace BosFlow.Numerics.Abel;

/// <summary>What an inversion starts from.</summary>
public enum AbelInput
{
    /// <summary>The projection F(y) = 2 INT f(r) r dr / sqrt(r^2 - y^2), r from y outwards.</summary>
    Projection,

    /// <summary>Its slope G(y) = dF/dy.</summary>
    Slope,
}
