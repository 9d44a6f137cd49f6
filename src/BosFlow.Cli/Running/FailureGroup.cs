using System.Text.RegularExpressions;
using BosFlow.Pipeline;

namespace BosFlow.Cli.Running;

/// <summary>Frames that could not be measured, or were left out, for the same reason.</summary>
/// <param name="Frames">Their numbers, ascending.</param>
/// <param name="Reason">The reason of the first of them, one sentence.</param>
/// <param name="NumbersDiffer">Whether the others give other numbers in the same words.</param>
internal sealed partial record FailureGroup(IReadOnlyList<int> Frames, string Reason, bool NumbersDiffer)
{
    /// <summary>Groups frames; the largest group comes first.</summary>
    /// <param name="frames">The frames, in order.</param>
    public static IReadOnlyList<FailureGroup> Of(IEnumerable<FailedFrame> frames) =>
    [
        .. frames
            .GroupBy(frame => Key(frame.Reason), StringComparer.Ordinal)
            .Select(group => new FailureGroup([.. group.Select(frame => frame.Index)], group.First().Reason, group.Any(frame => frame.Reason != group.First().Reason)))
            .OrderByDescending(group => group.Frames.Count)
            .ThenBy(group => group.Frames[0]),
    ];

    /// <summary>What reasons have in common that differ in their numbers only.</summary>
    /// <param name="reason">A reason.</param>
    public static string Key(string reason) => Number().Replace(reason, "#");

    /// <summary>The group as one line.</summary>
    public override string ToString()
    {
        string which = Frames.Count == 1 ? "frame" : "frames";
        string example = NumbersDiffer ? FormattableString.Invariant($" (frame {Frames[0]}; the others with other numbers)") : string.Empty;
        return $"{which} {FrameNumbers.InWords(Frames)}: {Reason}{example}";
    }

    [GeneratedRegex(@"\d+([.,]\d+)*")]
    private static partial Regex Number();
}
