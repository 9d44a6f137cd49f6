using System.Numerics;
using System.Runtime.InteropServices;

namespace BosFlow.Displacement;

/// <summary>
/// Weighted sums over all interrogation windows of several pictures at once, fed row by row from the top: each picture
/// row is added once to every row of windows that contains it, so the cost hardly depends on the overlap.
/// </summary>
/// <remarks>
/// S_k(c, r) = sum_y sum_x w_y w_x P_k(x, y) over the window of node (c, r). The order of additions depends on the
/// layout alone. Rows accumulate in single precision, a window's final sum in double.
/// </remarks>
internal sealed class WindowSums
{
    private readonly WindowLayout layout;
    private readonly float[] weights;
    private readonly float[][] accumulators;
    private readonly int slots;
    private readonly int terms;
    private readonly int width;

    public WindowSums(WindowLayout layout, float[] weights, int width, int terms)
    {
        this.layout = layout;
        this.weights = weights;
        this.terms = terms;
        this.width = width;
        slots = ((layout.Size + layout.Spacing - 1) / layout.Spacing) + 1;
        accumulators = new float[slots * terms][];
        for (int i = 0; i < accumulators.Length; i++)
            accumulators[i] = new float[width];
        Totals = new double[layout.Grid.Columns * terms];
    }

    /// <summary>Sums of the row of windows that was completed last: [column * terms + term].</summary>
    public double[] Totals { get; }

    /// <summary>Adds one picture row; rows must come in order, each once.</summary>
    /// <param name="y">Row of the picture.</param>
    /// <param name="products">One array of "width" floats a term.</param>
    /// <returns>The row of nodes that this row completed, its sums in <see cref="Totals"/>; -1 where none.</returns>
    public int Add(int y, float[][] products)
    {
        int offset = y - layout.FirstY;
        if (offset < 0)
            return -1;
        int last = Math.Min(offset / layout.Spacing, layout.Grid.Rows - 1);
        int first = offset < layout.Size ? 0 : ((offset - layout.Size) / layout.Spacing) + 1;
        int completed = -1;
        for (int row = first; row <= last; row++)
        {
            int inside = offset - (row * layout.Spacing);
            for (int term = 0; term < terms; term++)
                Accumulate(accumulators[((row % slots) * terms) + term], products[term], weights[inside], inside == 0);
            if (inside == layout.Size - 1)
                completed = row;
        }

        if (completed >= 0)
            SumAlongRow(completed % slots);
        return completed;
    }

    private void SumAlongRow(int slot)
    {
        for (int column = 0; column < layout.Grid.Columns; column++)
        {
            int left = layout.Left(column);
            for (int term = 0; term < terms; term++)
                Totals[(column * terms) + term] = Dot(accumulators[(slot * terms) + term].AsSpan(left, layout.Size), weights);
        }
    }

    private void Accumulate(float[] accumulator, float[] product, float weight, bool start)
    {
        Span<float> target = accumulator.AsSpan(0, width);
        ReadOnlySpan<float> source = product.AsSpan(0, width);
        Span<Vector<float>> wideTarget = MemoryMarshal.Cast<float, Vector<float>>(target);
        ReadOnlySpan<Vector<float>> wideSource = MemoryMarshal.Cast<float, Vector<float>>(source);
        int done = wideTarget.Length * Vector<float>.Count;
        if (start)
        {
            for (int i = 0; i < wideTarget.Length; i++)
                wideTarget[i] = wideSource[i] * weight;
            for (int x = done; x < width; x++)
                target[x] = source[x] * weight;
            return;
        }

        for (int i = 0; i < wideTarget.Length; i++)
            wideTarget[i] += wideSource[i] * weight;
        for (int x = done; x < width; x++)
            target[x] += source[x] * weight;
    }

    private static double Dot(ReadOnlySpan<float> values, ReadOnlySpan<float> weights)
    {
        double sum = 0;
        for (int i = 0; i < weights.Length; i++)
            sum += (double)values[i] * weights[i];
        return sum;
    }
}
