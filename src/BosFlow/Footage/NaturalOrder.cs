namespace BosFlow.Footage;

/// <summary>
/// Orders file names as people count: digits inside a name compare by their number, so "frame2" stands before
/// "frame10"; everything else compares by its characters' code points. Culture plays no part.
/// </summary>
public sealed class NaturalOrder : IComparer<string>
{
    private NaturalOrder()
    {
    }

    /// <summary>The one instance; it has no state.</summary>
    public static NaturalOrder Instance { get; } = new();

    /// <summary>Compares two names.</summary>
    /// <param name="x">First name; null stands before every name.</param>
    /// <param name="y">Second name; null stands before every name.</param>
    /// <returns>Negative, zero or positive as x stands before, at or after y; zero only for equal strings.</returns>
    public int Compare(string? x, string? y)
    {
        if (x is null || y is null)
            return (x is null ? 0 : 1) - (y is null ? 0 : 1);
        int i = 0;
        int j = 0;
        while (i < x.Length && j < y.Length)
        {
            int difference = char.IsAsciiDigit(x[i]) && char.IsAsciiDigit(y[j])
                ? CompareNumbers(NextNumber(x, ref i), NextNumber(y, ref j))
                : x[i++].CompareTo(y[j++]);
            if (difference != 0)
                return difference;
        }

        int rest = (x.Length - i) - (y.Length - j);
        // "frame1" and "frame01" count alike; the plain order keeps the comparison a total one.
        return rest != 0 ? rest : string.CompareOrdinal(x, y);
    }

    private static ReadOnlySpan<char> NextNumber(string text, ref int position)
    {
        int start = position;
        while (position < text.Length && char.IsAsciiDigit(text[position]))
            position++;
        return text.AsSpan(start, position - start).TrimStart('0');
    }

    // Without leading zeros the longer number is the larger one, however many digits there are.
    private static int CompareNumbers(ReadOnlySpan<char> first, ReadOnlySpan<char> second) =>
        first.Length != second.Length ? first.Length - second.Length : first.SequenceCompareTo(second);
}
