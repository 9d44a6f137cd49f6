using System.Numerics;
using System.Runtime.Intrinsics;

namespace BosFlow.Displacement;

/// <summary>What one look at a row of pixels tells: sum, pixels not recorded, and where it may belong to glare.</summary>
/// <param name="Sum">Sum of the recorded pixels, digital numbers.</param>
/// <param name="Missing">Pixels that were not recorded.</param>
/// <param name="GlareCells">A bit for each 64th of the row that has as many saturated pixels side by side as rows of glare have.</param>
internal readonly record struct FrameScan(double Sum, int Missing, ulong GlareCells)
{
    /// <summary>Parts of a row that are told apart.</summary>
    public const int Cells = 64;

    // Glare is an area of 9 x 9 px that is saturated to 80 %: most of its rows have four saturated pixels side by side, or four of those that the border leaves.
    private const int BorderColumns = 6;
    private const int BorderCount = 4;

    /// <summary>Looks at a row.</summary>
    /// <param name="row">Grey levels.</param>
    /// <param name="white">Level from which a pixel is saturated.</param>
    public static FrameScan Of(ReadOnlySpan<float> row, float white)
    {
        int lanes = Vector<float>.Count, x = 0;
        Vector<float> sum = Vector<float>.Zero, most = new(float.NegativeInfinity), sum1 = sum, sum2 = sum, sum3 = sum, most1 = most, most2 = most, most3 = most;
        // Four sums at a time, so that none waits for the addition before.
        for (; x <= row.Length - (4 * lanes); x += 4 * lanes)
        {
            ReadOnlySpan<float> pixels = row.Slice(x, 4 * lanes);
            Vector<float> here = new(pixels), here1 = new(pixels[lanes..]), here2 = new(pixels[(2 * lanes)..]), here3 = new(pixels[(3 * lanes)..]);
            (sum, sum1, sum2, sum3) = (sum + here, sum1 + here1, sum2 + here2, sum3 + here3);
            (most, most1) = (Vector.MaxNative(most, here), Vector.MaxNative(most1, here1));
            (most2, most3) = (Vector.MaxNative(most2, here2), Vector.MaxNative(most3, here3));
        }

        double total = Vector.Sum(sum + sum1 + (sum2 + sum3));
        most = Vector.MaxNative(Vector.MaxNative(most, most1), Vector.MaxNative(most2, most3));
        float highest = float.NegativeInfinity;
        for (int lane = 0; lane < lanes; lane++)
            highest = Math.Max(highest, most[lane]);
        for (; x < row.Length; x++)
        {
            total += row[x];
            highest = Math.Max(highest, row[x]);
        }

        if (double.IsNaN(total))
            return WithMissing(row, white);
        return new FrameScan(total, 0, highest >= white ? FindGlare(row, white) : 0);
    }

    private static FrameScan WithMissing(ReadOnlySpan<float> row, float white)
    {
        double sum = 0;
        int missing = 0;
        foreach (float pixel in row)
        {
            if (float.IsNaN(pixel))
                missing++;
            else
                sum += pixel;
        }

        return new FrameScan(sum, missing, FindGlare(row, white));
    }

    private static ulong FindGlare(ReadOnlySpan<float> row, float white)
    {
        int border = Math.Min(BorderColumns, row.Length);
        ulong cells = Count(row[..border], white) >= BorderCount ? 1ul : 0;
        cells |= Count(row[^border..], white) >= BorderCount ? 1ul << (Cells - 1) : 0;
        uint before = 0;
        Vector256<float> limit = Vector256.Create(white);
        for (int x = 0; x <= row.Length - 8; x += 8)
        {
            if (x <= row.Length - 32 && !AnySaturated(row.Slice(x, 32), limit))
            {
                x += 24;
                before = 0;
                continue;
            }

            // The last three pixels of the eight before lie below these.
            uint saturated = Saturated(row[x..], limit).ExtractMostSignificantBits();
            uint bits = (saturated << 3) | (before >> 5);
            if ((bits & (bits >> 1) & (bits >> 2) & (bits >> 3)) != 0)
                cells |= 1ul << (x * Cells / row.Length);
            before = saturated;
        }

        return cells;
    }

    private static bool AnySaturated(ReadOnlySpan<float> pixels, Vector256<float> white) =>
        (Saturated(pixels, white) | Saturated(pixels[8..], white) | Saturated(pixels[16..], white) | Saturated(pixels[24..], white)) != Vector256<float>.Zero;

    private static Vector256<float> Saturated(ReadOnlySpan<float> pixels, Vector256<float> white) => Vector256.GreaterThanOrEqual(Vector256.Create(pixels), white);

    private static int Count(ReadOnlySpan<float> row, float white)
    {
        int count = 0;
        foreach (float pixel in row)
            count += pixel >= white ? 1 : 0;
        return count;
    }
}
