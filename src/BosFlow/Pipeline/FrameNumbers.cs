using System.Globalization;

namespace BosFlow.Pipeline;

/// <summary>Many frame numbers in few words.</summary>
public static class FrameNumbers
{
    /// <summary>Numbers that follow each other are joined: 3, 5-8, 12.</summary>
    /// <param name="numbers">Frame numbers, ascending, without repeats.</param>
    /// <param name="most">Number of ranges after which the rest is only counted, at least 1.</param>
    public static string InWords(IReadOnlyList<int> numbers, int most = 12)
    {
        ArgumentNullException.ThrowIfNull(numbers);
        ArgumentOutOfRangeException.ThrowIfLessThan(most, 1);
        IReadOnlyList<(int First, int Last)> ranges = Ranges(numbers);
        IEnumerable<string> told = ranges.Take(most).Select(range => range.First == range.Last
            ? range.First.ToString(CultureInfo.InvariantCulture)
            : FormattableString.Invariant($"{range.First}-{range.Last}"));
        int untold = ranges.Skip(most).Sum(range => range.Last - range.First + 1);
        string rest = untold > 0 ? FormattableString.Invariant($" and {untold} more") : string.Empty;
        return string.Join(", ", told) + rest;
    }

    /// <summary>First and last of the numbers that follow each other.</summary>
    /// <param name="numbers">Frame numbers, ascending, without repeats.</param>
    public static IReadOnlyList<(int First, int Last)> Ranges(IReadOnlyList<int> numbers)
    {
        ArgumentNullException.ThrowIfNull(numbers);
        var ranges = new List<(int First, int Last)>();
        foreach (int number in numbers)
        {
            if (ranges.Count > 0 && ranges[^1].Last == number - 1)
                ranges[^1] = (ranges[^1].First, number);
            else
                ranges.Add((number, number));
        }

        return ranges;
    }
}
