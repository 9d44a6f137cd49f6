namespace BosFlow.Numerics.Robust;

/// <summary>Order statistics without sorting everything.</summary>
public static class Selection
{
    // Below it, sorting is quicker than dividing again.
    private const int FewEnoughToSort = 24;
    private const int MostBadDivisions = 4;

    /// <summary>The value that would stand at a place if the values were sorted.</summary>
    /// <param name="values">Values without NaN; reordered.</param>
    /// <param name="place">Place in ascending order, 0 to the number of values less 1.</param>
    /// <returns>The value.</returns>
    /// <remarks>
    /// Divides the values about the middle one of three until few are left about the place; after four divisions that took off little the rest is sorted, so that no
    /// order of the values makes it slow. Source: Hoare 1961, Communications of the ACM 4:321 (from memory).
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">The place lies outside the values.</exception>
    public static double At(Span<double> values, int place)
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
    private static (int Lower, int Upper) Divide(Span<double> values, double pivot)
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

    private static double MiddleOfThree(double a, double b, double c) => Math.Max(Math.Min(a, b), Math.Min(Math.Max(a, b), c));
}
