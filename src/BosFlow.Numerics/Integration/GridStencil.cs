using System.Numerics;

namespace BosFlow.Numerics.Integration;

/// <summary>The weighted graph Laplacian of a grid plus a diagonal, times a plane: links to the right and to the lower neighbour, each kept at the node that it starts from.</summary>
/// <remarks>
/// (A x)_i = excess_i x_i + sum over neighbours j of w_ij (x_i - x_j). Planes have <see cref="Pad"/> zeros before and behind the nodes, so that the
/// loop runs without a look at borders: links that would leave the grid have weight 0. Differences are taken before they are weighted: constants give exactly 0.
/// </remarks>
internal sealed class GridStencil<T>
    where T : unmanaged, INumber<T>
{
    private readonly int columns;

    public GridStencil(int columns, int nodes)
    {
        this.columns = columns;
        // The same in every precision, so that planes can be copied entry by entry.
        Pad = columns + Vector<byte>.Count;
        Nodes = nodes;
        Right = NewPlane();
        Down = NewPlane();
        Excess = NewPlane();
    }

    public int Nodes { get; }

    public int Pad { get; }

    /// <summary>Weights of the links to the right neighbour, padded.</summary>
    public T[] Right { get; }

    /// <summary>Weights of the links to the lower neighbour, padded.</summary>
    public T[] Down { get; }

    /// <summary>What the diagonal has above the sum of the links (links to known values), padded.</summary>
    public T[] Excess { get; }

    public T[] NewPlane() => new T[Nodes + (2 * Pad)];

    /// <summary>product = A x for nodes from .. to.</summary>
    public void Multiply(T[] x, T[] product, int from, int to)
    {
        int i = from + Pad, end = to + Pad;
        for (; i + Vector<T>.Count <= end; i += Vector<T>.Count)
            Wide(x, i).StoreUnsafe(ref product[i]);
        for (; i < end; i++)
            product[i] = Single(x, i);
    }

    /// <summary>residual = b - A x for nodes from .. to.</summary>
    public void Residual(T[] x, T[] b, T[] residual, int from, int to)
    {
        int i = from + Pad, end = to + Pad;
        for (; i + Vector<T>.Count <= end; i += Vector<T>.Count)
            (Load(b, i) - Wide(x, i)).StoreUnsafe(ref residual[i]);
        for (; i < end; i++)
            residual[i] = b[i] - Single(x, i);
    }

    /// <summary>A Jacobi step: target = x + scale (b - A x), scale being one over the diagonal, for nodes from .. to; target is not x.</summary>
    public void Smooth(T[] x, T[] b, T[] scale, T omega, T[] target, int from, int to)
    {
        int i = from + Pad, end = to + Pad;
        Vector<T> factor = new(omega);
        for (; i + Vector<T>.Count <= end; i += Vector<T>.Count)
            (Load(x, i) + (factor * Load(scale, i) * (Load(b, i) - Wide(x, i)))).StoreUnsafe(ref target[i]);
        for (; i < end; i++)
            target[i] = x[i] + (omega * scale[i] * (b[i] - Single(x, i)));
    }

    private static Vector<T> Load(T[] plane, int i) => Vector.LoadUnsafe(ref plane[i]);

    private Vector<T> Wide(T[] x, int i)
    {
        Vector<T> here = Load(x, i);
        return (Load(Excess, i) * here)
            + (Load(Right, i - 1) * (here - Load(x, i - 1))) + (Load(Right, i) * (here - Load(x, i + 1)))
            + (Load(Down, i - columns) * (here - Load(x, i - columns))) + (Load(Down, i) * (here - Load(x, i + columns)));
    }

    private T Single(T[] x, int i) =>
        (Excess[i] * x[i])
        + (Right[i - 1] * (x[i] - x[i - 1])) + (Right[i] * (x[i] - x[i + 1]))
        + (Down[i - columns] * (x[i] - x[i - columns])) + (Down[i] * (x[i] - x[i + columns]));
}
