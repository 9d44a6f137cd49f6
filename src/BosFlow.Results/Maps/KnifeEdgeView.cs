namespace BosFlow.Results.Maps;

/// <summary>The component of a vector field along a direction, as a knife edge would show it.</summary>
public static class KnifeEdgeView
{
    /// <summary>x cos(angle) - y sin(angle): image y runs down, the angle is counter-clockwise as seen on the picture.</summary>
    /// <param name="x">Components to the right.</param>
    /// <param name="y">Components downwards, same unit and length.</param>
    /// <param name="angleDegrees">0 = the component to the right, 90 = upwards; degrees counter-clockwise.</param>
    /// <returns>The component in the same unit; NaN where either is.</returns>
    public static float[] Component(float[] x, float[] y, double angleDegrees)
    {
        ArgumentNullException.ThrowIfNull(x);
        ArgumentNullException.ThrowIfNull(y);
        (double sine, double cosine) = Math.SinCos(angleDegrees * Math.PI / 180);
        return [.. x.Zip(y, (right, down) => (float)((right * cosine) - (down * sine)))];
    }
}
