using System.Globalization;
using BosFlow.Benchmarks.Reporting;

namespace BosFlow.Benchmarks.Endurance;

/// <summary>Memory of short and long runs of the same pictures.</summary>
internal static class LengthStudy
{
    private const int Width = 96;
    private const int Height = 72;
    private const int Rounds = 3;

    public static string Text(IReadOnlyList<int> lengths)
    {
        var rows = new List<IReadOnlyList<string>>();
        var peaks = new List<double>();
        foreach (int frames in lengths)
        {
            using var study = new EnduranceCase(Width, Height, frames);
            // The short ones are quick, and scatter: the median of several.
            (double Seconds, double Megabytes)[] runs = [.. Enumerable.Range(0, frames > 2000 ? 1 : Rounds).Select(round => RunProcess.ToTheEnd(study, study.Output($"run-{round}")))];
            double peak = Median.Of([.. runs.Select(run => run.Megabytes)]);
            peaks.Add(peak);
            rows.Add(
            [
                frames.ToString(CultureInfo.InvariantCulture),
                Median.Of([.. runs.Select(run => run.Seconds)]).ToString("0.0", CultureInfo.InvariantCulture),
                peak.ToString("0.0", CultureInfo.InvariantCulture),
                (new FileInfo(Path.Combine(study.Output("run-0"), "report.html")).Length / 1e3).ToString("0", CultureInfo.InvariantCulture),
            ]);
            Console.Error.WriteLine($"length: {string.Join(", ", rows[^1])}");
        }

        double growth = (peaks[^1] - peaks[0]) / peaks[0];
        double slope = (peaks[^1] - peaks[0]) * 1e6 / (lengths[^1] - lengths[0]);
        return string.Create(CultureInfo.InvariantCulture, $"""
            `bosflow run` on {Width} x {Height} px PNG files, one process a row; memory is the largest resident size of the process (median of {Rounds} runs up to
            2,000 frames). What remains of a frame once its file is written is its line of frames.csv and its input's hash.

            {MarkdownTable.Of(["frames", "seconds", "memory at its peak, MB", "size of report.html, kB"], rows)}
            **From {lengths[0]} to {lengths[^1]} frames the peak grows by {100 * growth:0.0} % ({slope:0} bytes a frame); at most 10 % is asked for.**
            """);
    }
}
