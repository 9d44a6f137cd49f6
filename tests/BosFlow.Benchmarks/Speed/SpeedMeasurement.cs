using System.Globalization;
using System.Text;
using BosFlow.Benchmarks.Reporting;
using BosFlow.Benchmarks.Scenes;
using BosFlow.Displacement;

namespace BosFlow.Benchmarks.Speed;

/// <summary>Frames a second and memory, as a report.</summary>
internal static class SpeedMeasurement
{
    public static void Run(MeasurementOptions options)
    {
        var engine = new List<IReadOnlyList<string>>();
        var whole = new List<IReadOnlyList<string>>();
        var video = new List<IReadOnlyList<string>>();
        var limits = new List<string>();
        var stages = new List<string>();
        foreach ((int width, int height, int frames) in options.Large ? [(1280, 720, 24), (3840, 2160, 8)] : new[] { (1280, 720, 24) })
        {
            Console.Error.WriteLine($"{width} x {height}");
            BenchmarkScene scene = BenchmarkScene.Wavy(width, height, noisePercent: 2);
            engine.AddRange(EngineSpeed.Rows(scene, options.Rounds));
            whole.AddRange(RunSpeed.Rows(scene, frames, options.Rounds));
            if (width < 3840)
                continue;
            using var clip = new VideoSpeed(scene);
            var timed = new VideoStages(clip);
            foreach ((string quality, DisplacementSettings settings) in new[] { ("fast", EngineSettings.Fast), ("standard", EngineSettings.Standard) })
            {
                WholeRun alone = clip.FurtherFrame(quality, 1, options.Rounds);
                WholeRun together = clip.FurtherFrame(quality, Environment.ProcessorCount, options.Rounds);
                video.Add(VideoSpeed.Row(quality, 1, alone));
                video.Add(VideoSpeed.Row(quality, Environment.ProcessorCount, together));
                IReadOnlyList<(string Name, double Milliseconds)> parts = timed.With(quality, settings, together);
                limits.Add(VideoSpeed.Limit(quality, together, parts));
                stages.Add(MarkdownTable.Of(
                    [$"stage, quality {quality}", "ms of processor time"],
                    [.. parts.Select(part => (IReadOnlyList<string>)[part.Name, part.Milliseconds.ToString("0", CultureInfo.InvariantCulture)])]));
            }
        }

        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"""
            # Speed and memory

            Made by `dotnet run -c Release --project tests/BosFlow.Benchmarks -- speed{(options.Large ? " --large" : "")} --rounds {options.Rounds}` on {MachineDescription.Line()}.

            Medians of {options.Rounds} rounds. They depend on the machine and what else it does. Windows of 32 px, one vector every 16 px
            (the defaults); synthetic pictures with 2 % noise and displacements up to 9 px.

            ## The engine alone

            Pictures in memory, the reference prepared. With all cores several frames are measured at once.

            {MarkdownTable.Of(["picture", "settings", "frames/s, 1 thread", "frames/s, all cores", "gain"], engine)}
            ## A whole run

            `bosflow run` as its own process on 8-bit PNG files: start, reading, hashing, registration (similarity), measuring, writing
            netCDF-4, statistics, maps, report. Memory is the largest resident size of the process.

            {MarkdownTable.Of(["picture", "frames", "threads", "seconds", "frames/s", "seconds for each further frame", "memory at its peak, MB"], whole)}
            """);
        if (options.Large)
            text.Append(Video(video, limits, stages, options.Rounds));
        ReportFile.Write(options.Output, text.ToString());
    }

    private static string Video(List<IReadOnlyList<string>> runs, List<string> limits, List<string> stages, int rounds) => $"""

        ## From a 4K clip in H.264 to netCDF

        The same as a clip of 3840 x 2160 px, 100 Mbit/s, {VideoSpeed.Frames} frames behind the reference. ffmpeg decodes as a process of its own on the same cores and is counted in.
        A further frame is the difference between runs of {VideoSpeed.Frames} frames and of a fifth of them, without start, reference, maps and report; the least of {rounds} rounds counts. Time on
        the clock holds whatever else the machine did meanwhile, processor time hardly. Asked for: at least {VideoSpeed.Asked:0} frames/s on two cores.

        {MarkdownTable.Of(["quality", "threads", "ms a frame, clock", "frames/s", "ms a frame, processor", "frames/s that all cores alone could do", "asked for", "memory at its peak, MB"], runs)}
        {string.Join("\n\n", limits)}

        What the stages take of a frame, each measured alone, the longest first; "all else" is what is left of the processor time of a run.

        {string.Join("\n", stages)}
        """;
}
