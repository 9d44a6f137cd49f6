using System.Numerics;

namespace BosFlow.Displacement;

/// <summary>Says whether a picture may hold glare, from one look at each row: nearly every frame has none, and the exact search costs time.</summary>
internal static class GlareScreen
{
    // Of nine rows of glare all but one or two have saturated pixels side by side; four of them in the same part of the picture are more than bright dots have.
    private const int RowsAround = 9;
    private const int LeastRows = 4;

    /// <summary>Whether any place has enough saturated rows one above the other.</summary>
    public static bool MayHaveGlare(ReadOnlySpan<FrameScan> rows)
    {
        Span<int> counts = stackalloc int[FrameScan.Cells];
        counts.Clear();
        for (int y = 0; y < rows.Length; y++)
        {
            if (Add(rows[y], 1, counts))
                return true;
            if (y >= RowsAround - 1)
                Add(rows[y - RowsAround + 1], -1, counts);
        }

        return false;
    }

    // A place may lie astride two parts: each row counts for the neighbours of its parts too.
    private static bool Add(FrameScan row, int sign, Span<int> counts)
    {
        bool enough = false;
        ulong cells = row.GlareCells | (row.GlareCells << 1) | (row.GlareCells >> 1);
        for (; cells != 0; cells &= cells - 1)
        {
            int cell = BitOperations.TrailingZeroCount(cells);
            counts[cell] += sign;
            enough |= counts[cell] >= LeastRows;
        }

        return enough;
    }
}
