namespace BosFlow.Displacement;

/// <summary>The polynomials of a window, block by block: products of 1, t and t^2 along both axes, t from -1 to 1 over the window; of t^2 a block takes its mean over its pixels, so that a polynomial is met in the mean.</summary>
internal sealed class ShapeFunctions
{
    /// <summary>Functions along an axis: 1, t, t^2.</summary>
    public const int AlongAxis = 3;

    // Powers along x and y: 1, x, y, x^2, xy, y^2.
    private static readonly (int X, int Y)[] Powers = [(0, 0), (1, 0), (0, 1), (2, 0), (1, 1), (0, 2)];

    /// <summary>Prepares the functions.</summary>
    /// <param name="shape">Quadratic windows are of second degree, all others of first.</param>
    /// <param name="blocks">Blocks along a side of a window.</param>
    /// <param name="side">Side of a block, px.</param>
    public ShapeFunctions(WindowShape shape, int blocks, int side)
    {
        Order = shape == WindowShape.Quadratic ? (byte)2 : (byte)1;
        Count = CountOf(Order);
        double half = blocks * side / 2.0, withinBlock = ((side * side) - 1) / 12.0 / (half * half);
        Axis = new float[AlongAxis][];
        for (int power = 0; power < AlongAxis; power++)
        {
            Axis[power] = new float[blocks];
            for (int block = 0; block < blocks; block++)
            {
                double t = ((block + 0.5) * side / half) - 1;
                Axis[power][block] = (float)(power switch { 0 => 1, 1 => t, _ => (t * t) + withinBlock });
            }
        }
    }

    /// <summary>Degree of the polynomials: 1 or 2.</summary>
    public byte Order { get; }

    /// <summary>Number of polynomials: 3 or 6; the first is 1, and the others vanish in the middle of the window.</summary>
    public int Count { get; }

    /// <summary>Values of 1, t, t^2 along an axis at the blocks of a window: [power][block].</summary>
    public float[][] Axis { get; }

    /// <summary>Number of polynomials up to a degree.</summary>
    /// <param name="order">1 or 2.</param>
    public static int CountOf(byte order) => order == 2 ? 6 : 3;

    /// <summary>Powers of a polynomial along x and y.</summary>
    public static (int X, int Y) PowersOf(int function) => Powers[function];
}
