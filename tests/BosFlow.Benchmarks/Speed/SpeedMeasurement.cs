using System.Globalization;
using System.Text;
using BosFlow.Benchmarks.Reporting;
using BosFlow.Benchmarks.Scenes;

namespace BosFlow.Benchmarks.Speed;

/// <summary>Frames a second and memory, as a report.</summary>
internal static class SpeedMeasurement
{
    public static void Run(MeasurementOptions options)
    {
        var engine = new List<IReadOnlyList<string>>();
        var whole = new List<IReadOnlyList<string>>();
        var video = new List<IReadOnlyList<string>>();
        var stages = new List<IReadOnlyList<string>>();
        foreach ((int width, int height, int frames) in options.Large ? [(1280, 720, 24), (3840, 2160, 8)] : new[] { (1280, 720, 24) })
        {
            Console.Error.WriteLine($"{width} x {height}");
            BenchmarkScene scene = BenchmarkScene.Wavy(width, height, noisePercent: 2);
            engine.AddRange(EngineSpeed.Rows(scene, options.Rounds));
            whole.AddRange(RunSpeed.Rows(scene, frames, options.Rounds));
            if (width < 3840)
                continue;
            video.AddRange(VideoSpeed.Rows(scene, options.Rounds));
            stages.AddRange(VideoSpeed.Stages(scene));
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
            text.Append(Video(video, stages));
        ReportFile.Write(options.Output, text.ToString());
    }

    private static string Video(List<IReadOnlyList<string>> runs, List<IReadOnlyList<string>> stages) => $"""

        ## From a 4K clip in H.264 to netCDF

        The same as a clip of 100 Mbit/s, 25 frames, the first the reference. ffmpeg decodes as a process of its own on the same cores.
        Asked for: at least 8 frames/s with 2 threads.

        {MarkdownTable.Of(["picture", "quality", "threads", "seconds for each further frame", "frames/s", "memory at its peak, MB"], runs)}
        What the stages take of a frame, each alone on one thread, the longest first: that one is the limit. What is left of a further frame is
        the fit of the background's motion, the writing of netCDF-4 and the sums over the frames.

        {MarkdownTable.Of(["stage", "ms a frame"], stages)}
        """;
}
