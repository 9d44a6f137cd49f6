namespace BosFlow.Displacement;

/// <summary>Bilinear values of one grid at the nodes of another; outside, the border is continued. Holds working memory: used by one thread at a time.</summary>
internal sealed class NodeResampling
{
    private readonly NodeGrid from;
    private readonly NodeGrid to;
    private readonly float[] between;
    private readonly (int Left, int Right, float Fraction)[] columns;

    public NodeResampling(NodeGrid from, NodeGrid to)
    {
        this.from = from;
        this.to = to;
        between = new float[from.Columns];
        columns = [.. Enumerable.Range(0, to.Columns).Select(column => Neighbours(to.X(column), from.OriginX, from.Spacing, from.Columns))];
    }

    /// <summary>Resamples values.</summary>
    /// <param name="values">One value a node of the first grid.</param>
    /// <param name="target">One value a node of the second.</param>
    public void Run(ReadOnlySpan<float> values, Span<float> target)
    {
        for (int row = 0; row < to.Rows; row++)
        {
            (int above, int below, float fraction) = Neighbours(to.Y(row), from.OriginY, from.Spacing, from.Rows);
            for (int column = 0; column < between.Length; column++)
                between[column] = Lerp(values[(above * from.Columns) + column], values[(below * from.Columns) + column], fraction);
            Span<float> line = target.Slice(row * to.Columns, to.Columns);
            for (int column = 0; column < line.Length; column++)
                line[column] = Lerp(between[columns[column].Left], between[columns[column].Right], columns[column].Fraction);
        }
    }

    private static (int Before, int After, float Fraction) Neighbours(double position, double origin, double spacing, int count)
    {
        double place = Math.Clamp((position - origin) / spacing, 0, count - 1);
        int before = Math.Min((int)place, Math.Max(count - 2, 0));
        return (before, Math.Min(before + 1, count - 1), (float)(place - before));
    }

    private static float Lerp(float a, float b, float t) => a + ((b - a) * t);
}
