using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using System.Text.Json;
using BosFlow.TestKit;

namespace BosFlow.Benchmarks.Peers;

/// <summary>A Python process with Debian's OpenCV that holds the pictures of one comparison and measures them on request.</summary>
internal sealed class DebianOpenCv : IDisposable
{
    private readonly TemporaryFolder folder = new();
    private readonly Process process;
    private readonly NodeTask task;

    public DebianOpenCv(NodeTask task)
    {
        this.task = task;
        WritePictures();
        var start = new ProcessStartInfo(ProcessRunner.DebianPython, [Path.Combine(AppContext.BaseDirectory, "Peers", "opencv_peers.py"), folder.Root])
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
        };
        process = Process.Start(start)!;
        Version = Answer().GetProperty("opencv").GetString()!;
    }

    public string Version { get; }

    public (double Seconds, NodeResult[] Frames) Measure(string method, int threads)
    {
        process.StandardInput.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{method} {threads}"));
        process.StandardInput.Flush();
        double seconds = Answer().GetProperty("seconds").GetDouble();
        float[] values = MemoryMarshal.Cast<byte, float>(File.ReadAllBytes(folder.PathOf("result.f32"))).ToArray();
        int nodes = task.Left.Length;
        NodeResult[] frames =
        [
            .. Enumerable.Range(0, task.Scene.Frames.Count)
                .Select(i => new NodeResult(values[(2 * i * nodes)..(((2 * i) + 1) * nodes)], values[(((2 * i) + 1) * nodes)..(((2 * i) + 2) * nodes)])),
        ];
        return (seconds, frames);
    }

    public void Dispose()
    {
        process.StandardInput.Close();
        process.WaitForExit();
        process.Dispose();
        folder.Dispose();
    }

    private JsonElement Answer()
    {
        string line = process.StandardOutput.ReadLine() ?? throw new InvalidOperationException("Debian's OpenCV ended; its message is above. It needs the package python3-opencv.");
        return JsonSerializer.Deserialize<JsonElement>(line);
    }

    private void WritePictures()
    {
        File.WriteAllBytes(folder.PathOf("reference.u8"), EightBitPictures.Bytes(task.Scene.Reference));
        for (int i = 0; i < task.Scene.Frames.Count; i++)
            File.WriteAllBytes(folder.PathOf($"frame{i}.u8"), EightBitPictures.Bytes(task.Scene.Frames[i]));
        static int[] Rounded(double[] values) => [.. values.Select(value => (int)Math.Round(value))];
        var description = new
        {
            width = task.Scene.Reference.Width,
            height = task.Scene.Reference.Height,
            frames = task.Scene.Frames.Count,
            window = task.WindowPixels,
            left = task.Left,
            top = task.Top,
            shifts = task.TruthU.Zip(task.TruthV, (u, v) => new[] { Rounded(u), Rounded(v) }),
        };
        folder.Write("task.json", JsonSerializer.Serialize(description));
    }
}
