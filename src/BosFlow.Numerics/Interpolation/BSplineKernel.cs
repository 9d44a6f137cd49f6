using System.Numerics;

namespace BosFlow.Numerics.Interpolation;

/// <summary>Weights and poles of the cardinal B-splines of order 3 (cubic) and 5 (quintic).</summary>
/// <remarks>Source: Unser, Aldroubi and Eden 1993, IEEE Trans. Signal Process. 41:821 and 834, doi 10.1109/78.193220 (formulas from memory; tests check them by the partition of unity and by reproduction of polynomials).</remarks>
internal static class BSplineKernel
{
    private static readonly double CubicPole = Math.Sqrt(3) - 2;
    private static readonly double QuinticPole1 = Math.Sqrt((135.0 / 2) - Math.Sqrt(17745.0 / 4)) + Math.Sqrt(105.0 / 4) - (13.0 / 2);
    private static readonly double QuinticPole2 = Math.Sqrt((135.0 / 2) + Math.Sqrt(17745.0 / 4)) - Math.Sqrt(105.0 / 4) - (13.0 / 2);

    private static readonly double[] CubicPoles = [CubicPole];
    private static readonly double[] QuinticPoles = [QuinticPole1, QuinticPole2];

    /// <summary>Poles of the prefilter of an order, each within (-1, 0).</summary>
    public static ReadOnlySpan<double> Poles(int order) => order switch
    {
        3 => CubicPoles,
        5 => QuinticPoles,
        _ => throw new ArgumentOutOfRangeException(nameof(order), order, "The order must be 3 (cubic) or 5 (quintic)."),
    };

    // Cubic: weights of samples floor - 1 .. floor + 2 at fraction t in [0, 1).
    public static void Cubic(float t, out float w0, out float w1, out float w2, out float w3)
    {
        float s = 1 - t;
        w0 = s * s * s * (1f / 6);
        w3 = t * t * t * (1f / 6);
        w1 = (2f / 3) - (t * t * (1 - (0.5f * t)));
        w2 = 1 - w0 - w1 - w3;
    }

    public static void Cubic(Vector<float> t, out Vector<float> w0, out Vector<float> w1, out Vector<float> w2, out Vector<float> w3)
    {
        Vector<float> one = Vector<float>.One;
        Vector<float> s = one - t;
        w0 = s * s * s * (1f / 6);
        w3 = t * t * t * (1f / 6);
        w1 = new Vector<float>(2f / 3) - (t * t * (one - (0.5f * t)));
        w2 = one - w0 - w1 - w3;
    }

    // Quintic: weights of samples floor - 2 .. floor + 3 at fraction t in [0, 1).
    public static void Quintic(float t, out float w0, out float w1, out float w2, out float w3, out float w4, out float w5)
    {
        float s = 1 - t;
        float t2 = t * t;
        float s2 = s * s;
        w0 = s2 * s2 * s * (1f / 120);
        w5 = t2 * t2 * t * (1f / 120);
        w2 = (66 + (t2 * (-60 + (t2 * (30 - (10 * t)))))) * (1f / 120);
        w3 = (66 + (s2 * (-60 + (s2 * (30 - (10 * s)))))) * (1f / 120);
        w1 = (26 + (t * (-50 + (t * (20 + (t * (20 + (t * (-20 + (5 * t)))))))))) * (1f / 120);
        w4 = 1 - w0 - w1 - w2 - w3 - w5;
    }

    public static void Quintic(
        Vector<float> t, out Vector<float> w0, out Vector<float> w1, out Vector<float> w2,
        out Vector<float> w3, out Vector<float> w4, out Vector<float> w5)
    {
        Vector<float> one = Vector<float>.One;
        Vector<float> s = one - t;
        Vector<float> t2 = t * t;
        Vector<float> s2 = s * s;
        w0 = s2 * s2 * s * (1f / 120);
        w5 = t2 * t2 * t * (1f / 120);
        w2 = (V(66) + (t2 * (V(-60) + (t2 * (V(30) - (10 * t)))))) * (1f / 120);
        w3 = (V(66) + (s2 * (V(-60) + (s2 * (V(30) - (10 * s)))))) * (1f / 120);
        w1 = (V(26) + (t * (V(-50) + (t * (V(20) + (t * (V(20) + (t * (V(-20) + (5 * t)))))))))) * (1f / 120);
        w4 = one - w0 - w1 - w2 - w3 - w5;
    }

    private static Vector<float> V(float value) => new(value);
}
