namespace BosFlow.Displacement;

/// <summary>Makes a complete, smooth predictor out of the vectors of a pass. Results themselves never pass through here.</summary>
internal static class PredictorUpdate
{
    /// <summary>Fills nodes without a value from their neighbours, ring by ring; all zero where nothing is known.</summary>
    public static void Fill(NodeGrid grid, float[] values)
    {
        if (!RowArithmetic.AnyNaN(values))
            return;
        float[] next = (float[])values.Clone();
        bool missing = true, any = true;
        while (missing && any)
        {
            missing = any = false;
            for (int node = 0; node < values.Length; node++)
            {
                if (!float.IsNaN(values[node]))
                    continue;
                float mean = NeighbourMean(grid, node, values);
                next[node] = mean;
                any |= !float.IsNaN(mean);
                missing |= float.IsNaN(mean);
            }

            next.CopyTo(values, 0);
        }

        if (missing)
            Array.Clear(values);
    }

    /// <summary>Smooths by (1 2 1) / 4 in both directions; across its own border a value is left alone, so that a linear field stays as it is.</summary>
    public static void Smooth(NodeGrid grid, float[] values, float[] scratch, int times)
    {
        int columns = grid.Columns, rows = grid.Rows;
        for (int k = 0; k < times; k++)
        {
            for (int row = 0; row < rows; row++)
            {
                ReadOnlySpan<float> line = values.AsSpan(row * columns, columns);
                Span<float> smooth = scratch.AsSpan(row * columns, columns);
                (smooth[0], smooth[^1]) = (line[0], line[^1]);
                if (columns > 2)
                    RowArithmetic.Binomial(line, line[1..], line[2..], smooth[1..^1]);
            }

            scratch.AsSpan(0, columns).CopyTo(values);
            scratch.AsSpan((rows - 1) * columns, columns).CopyTo(values.AsSpan((rows - 1) * columns));
            for (int row = 1; row < rows - 1; row++)
            {
                ReadOnlySpan<float> from = scratch.AsSpan((row - 1) * columns);
                RowArithmetic.Binomial(from, from[columns..], from[(2 * columns)..], values.AsSpan(row * columns, columns));
            }
        }
    }

    private static float NeighbourMean(NodeGrid grid, int node, float[] values)
    {
        int column = node % grid.Columns, row = node / grid.Columns, n = 0;
        float sum = 0;
        for (int r = Math.Max(0, row - 1); r <= Math.Min(grid.Rows - 1, row + 1); r++)
        {
            for (int c = Math.Max(0, column - 1); c <= Math.Min(grid.Columns - 1, column + 1); c++)
            {
                float value = values[(r * grid.Columns) + c];
                if (float.IsNaN(value))
                    continue;
                sum += value;
                n++;
            }
        }

        return n == 0 ? float.NaN : sum / n;
    }
}
