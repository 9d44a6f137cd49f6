using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace BosFlow.Footage;

/// <summary>Sums in eight lanes, each of double precision: one order of additions on every kind of processor.</summary>
/// <remarks>The lanes are passed as values, so that a loop keeps them in registers.</remarks>
internal static class LaneSum
{
    /// <summary>Eight values in double precision.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector512<double> Widened(Vector256<float> values) => Avx512F.IsSupported
        ? Avx512F.ConvertToVector512Double(values)
        : Vector512.Create(Vector256.WidenLower(values), Vector256.WidenUpper(values));

    /// <summary>The sum; lanes are added in their order.</summary>
    public static double Total(Vector512<double> lanes)
    {
        double total = 0;
        for (int lane = 0; lane < Vector512<double>.Count; lane++)
            total += lanes[lane];
        return total;
    }
}
