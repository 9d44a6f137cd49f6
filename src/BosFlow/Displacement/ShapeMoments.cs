using System.Numerics;

namespace BosFlow.Displacement;

/// <summary>Sums of e gx and e gy over the windows of a row of nodes, with every polynomial as weight; from the sums of blocks, down the columns first and then along the row.</summary>
internal sealed class ShapeMoments(ShapeFunctions functions, BlockLayout layout, int columns)
{
    private readonly float[] down = new float[ShapeFunctions.AlongAxis * layout.Columns];

    /// <summary>Sums of the row: [(component * functions + function) * columns + column].</summary>
    public float[] Sums { get; } = new float[2 * functions.Count * columns];

    /// <summary>Forms the sums of a row of windows.</summary>
    /// <param name="blocks">Sums of the blocks.</param>
    /// <param name="top">First row of the windows' blocks.</param>
    public void Add(BlockSums blocks, int top)
    {
        for (int component = 0; component < 2; component++)
        {
            down.AsSpan().Clear();
            for (int power = 0; power <= functions.Order; power++)
            {
                for (int row = 0; row < layout.PerWindow; row++)
                    AddScaled(blocks.Row(top + row).Slice(component * layout.Columns, layout.Columns), functions.Axis[power][row], Down(power));
            }

            for (int function = 0; function < functions.Count; function++)
            {
                (int x, int y) = ShapeFunctions.PowersOf(function);
                SlidingSums(Down(y), functions.Axis[x], layout.PerStep, Sums.AsSpan(((component * functions.Count) + function) * columns, columns));
            }
        }
    }

    private Span<float> Down(int power) => down.AsSpan(power * layout.Columns, layout.Columns);

    private static void AddScaled(ReadOnlySpan<float> row, float factor, Span<float> target)
    {
        int lanes = Vector<float>.Count, i = 0;
        for (; i <= target.Length - lanes; i += lanes)
            (new Vector<float>(target[i..]) + (factor * new Vector<float>(row[i..]))).CopyTo(target[i..]);
        for (; i < target.Length; i++)
            target[i] += factor * row[i];
    }

    // target[i] = sum over k of weights[k] row[i * step + k].
    private static void SlidingSums(ReadOnlySpan<float> row, float[] weights, int step, Span<float> target)
    {
        int lanes = Vector<float>.Count, i = 0;
        for (; step == 1 && i <= target.Length - lanes; i += lanes)
        {
            Vector<float> sum = Vector<float>.Zero;
            for (int k = 0; k < weights.Length; k++)
                sum += weights[k] * new Vector<float>(row[(i + k)..]);
            sum.CopyTo(target[i..]);
        }

        for (; i < target.Length; i++)
        {
            float sum = 0;
            for (int k = 0; k < weights.Length; k++)
                sum += weights[k] * row[(i * step) + k];
            target[i] = sum;
        }
    }
}
