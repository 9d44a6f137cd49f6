using System.Globalization;
using BosFlow.Benchmarks.Peers;
using BosFlow.Benchmarks.Reporting;

namespace BosFlow.Benchmarks.Performance;

/// <summary>The ratios that the engine is asked to reach, beside those that it reached.</summary>
internal static class AskedRatios
{
    /// <summary>A table of them.</summary>
    /// <param name="scores">fast, finest, DIS fast, DIS medium, Farneback, phase correlation, in this order.</param>
    public static string Table(IReadOnlyList<PeerScore> scores)
    {
        (PeerScore fast, PeerScore finest) = (scores[0], scores[1]);
        return "\n" + MarkdownTable.Of(["ratio of times", "asked for, at least", "reached", ""],
        [
            Row("DIS, medium preset, over fast, all cores", 10, scores[3].AllThreadsSeconds / fast.AllThreadsSeconds),
            Row("DIS, fast preset, over fast, all cores", 2, scores[2].AllThreadsSeconds / fast.AllThreadsSeconds),
            Row("Farneback over fast, all cores", 30, scores[4].AllThreadsSeconds / fast.AllThreadsSeconds),
            Row("phase correlation over fast, 1 thread", 38, scores[5].OneThreadSeconds / fast.OneThreadSeconds),
            Row("DIS, medium preset, over finest, all cores", 6, scores[3].AllThreadsSeconds / finest.AllThreadsSeconds),
            Row("fast: 1 thread over all cores", 1.75, fast.OneThreadSeconds / fast.AllThreadsSeconds),
            Row("finest: 1 thread over all cores", 1.75, finest.OneThreadSeconds / finest.AllThreadsSeconds),
        ]);
    }

    private static string[] Row(string what, double asked, double reached) =>
        [what, asked.ToString(CultureInfo.InvariantCulture), reached.ToString(reached < 10 ? "0.00" : "0.0", CultureInfo.InvariantCulture), reached >= asked ? "met" : "missed"];
}
