namespace BosFlow.Numerics.Integration;

/// <summary>How the integral of the gradient from a node to the next is taken from the gradients at up to four nodes in line.</summary>
/// <remarks>
/// In units of the spacing. Fourth order: the cubic through nodes -1, 0, 1, 2 integrated from 0 to 1 (open Adams-Moulton type weights, derived);
/// trapezium; or the gradient of the one node that has it.
/// </remarks>
internal static class EdgeStencil
{
    public const byte None = 0;
    public const byte First = 1;
    public const byte Second = 2;
    public const byte Trapezium = 3;
    public const byte Cubic = 4;

    // Weights of the nodes -1, 0, 1, 2 by kind.
    private static readonly double[] Weights =
    [
        0, 0, 0, 0,
        0, 1, 0, 0,
        0, 0, 1, 0,
        0, 0.5, 0.5, 0,
        -1 / 24.0, 13 / 24.0, 13 / 24.0, -1 / 24.0,
    ];

    public static ReadOnlySpan<double> Of(byte kind) => Weights.AsSpan(4 * kind, 4);

    public static byte Kind(bool before, bool first, bool second, bool after) => (first, second) switch
    {
        (true, true) => before && after ? Cubic : Trapezium,
        (true, false) => First,
        (false, true) => Second,
        _ => None,
    };
}
