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
        var ranges = new List<string>();
        int told = 0;
        for (int first = 0, last; first < numbers.Count; first = last + 1)
        {
            last = first;
            while (last + 1 < numbers.Count && numbers[last + 1] == numbers[last] + 1)
                last++;
            if (ranges.Count == most)
                break;
            ranges.Add(first == last
                ? numbers[first].ToString(CultureInfo.InvariantCulture)
                : FormattableString.Invariant($"{numbers[first]}-{numbers[last]}"));
            told = last + 1;
        }

        string rest = told < numbers.Count ? FormattableString.Invariant($" and {numbers.Count - told} more") : string.Empty;
        return string.Join(", ", ranges) + rest;
    }
}
