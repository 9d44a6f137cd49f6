using System.Numerics;

namespace BosFlow.Numerics.Robust;

/// <summary>Order statistics without sorting everything.</summary>
public static class Selection
{
    // Below it, sorting is quicker than dividing again.
    private const int FewEnoughToSort = 24;
    private const int MostBadDivisions = 4;

    /// <summary>The value that would stand at a place if the values were sorted.</summary>
    /// <typeparam name="T">Type of the values.</typeparam>
    /// <param name="values">Values without NaN; reordered so that none before the place is larger and none after it smaller.</param>
    /// <param name="place">Place in ascending order, 0 to the number of values less 1.</param>
    /// <returns>The value.</returns>
    /// <remarks>
    /// Divides the values about the middle one of three until few are left about the place; after four divisions that took off little the rest is sorted, so that no
    /// order of the values makes it slow. Source: Hoare 1961, Communications of the ACM 4:321 (from memory).
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">The place lies outside the values.</exception>
    public static T At<T>(Span<T> values, int place)
        where T : struct, INumber<T>
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual((uint)place, (uint)values.Length, nameof(place));
        int badDivisions = 0;
        while (values.Length > FewEnoughToSort && badDivisions < MostBadDivisions)
        {
            (int lower, int upper) = Divide(values, MiddleOfThree(values[0], values[values.Length / 2], values[^1]));
            int before = values.Length;
            if (place >= lower && place < upper)
                return values[place];
            int start = place < lower ? 0 : upper;
            values = values[start..(place < lower ? lower : before)];
            place -= start;
            if (values.Length > before * 7 / 8)
                badDivisions++;
        }

        values.Sort();
        return values[place];
    }

    // Smaller ones first, larger ones last; between the two places that are returned stand values equal to the pivot.
    private static (int Lower, int Upper) Divide<T>(Span<T> values, T pivot)
        where T : struct, INumber<T>
    {
        int left = 0, right = values.Length - 1;
        while (left <= right)
        {
            while (values[left] < pivot)
                left++;
            while (values[right] > pivot)
                right--;
            if (left > right)
                break;
            (values[left], values[right]) = (values[right], values[left]);
            left++;
            right--;
        }

        return (right + 1, left);
    }

    private static T MiddleOfThree<T>(T a, T b, T c)
        where T : struct, INumber<T> => T.Max(T.Min(a, b), T.Min(T.Max(a, b), c));
}
