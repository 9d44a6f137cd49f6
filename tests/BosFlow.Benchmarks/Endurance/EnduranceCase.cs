using System.Globalization;
using BosFlow.Benchmarks.Peers;
using BosFlow.Benchmarks.Scenes;
using BosFlow.Footage;
using BosFlow.TestKit;
using OpenCvSharp;

namespace BosFlow.Benchmarks.Endurance;

/// <summary>A case of many frames on disk: a few different pictures, again and again. It goes with its folder.</summary>
internal sealed class EnduranceCase : IDisposable
{
    private readonly TemporaryFolder folder = new();

    /// <summary>Writes reference, frames and case file.</summary>
    /// <param name="width">Width of every picture, px.</param>
    /// <param name="height">Height of every picture, px.</param>
    /// <param name="frames">Number of frames.</param>
    public EnduranceCase(int width, int height, int frames)
    {
        Width = width;
        Height = height;
        Frames = frames;
        BenchmarkScene scene = BenchmarkScene.Shifts(width, height, noisePercent: 2);
        Write(folder.PathOf("reference.png"), scene.Reference);
        Directory.CreateDirectory(folder.PathOf("frames"));
        for (int i = 0; i < frames; i++)
        {
            if (i < scene.Frames.Count)
                Write(FramePath(i), scene.Frames[i]);
            else
                File.Copy(FramePath(i % scene.Frames.Count), FramePath(i));
        }

        CaseFile = folder.Write("case.toml", """
            [footage]
            frames = "frames/*.png"
            frame_rate_hz = 60.0

            [reference]
            image = "reference.png"

            [rig]
            lens_to_flow_mm = 1200.0
            flow_to_background_mm = 800.0
            background_mm_per_px = 0.31
            """);
    }

    public int Width { get; }

    public int Height { get; }

    public int Frames { get; }

    public string CaseFile { get; }

    /// <summary>Absolute path of a folder for results; it is not made.</summary>
    public string Output(string name) => folder.PathOf(name);

    public string Size => string.Create(CultureInfo.InvariantCulture, $"{Width} x {Height}");

    public void Dispose() => folder.Dispose();

    private string FramePath(int index) => folder.PathOf("frames", string.Create(CultureInfo.InvariantCulture, $"{index:00000}.png"));

    private static void Write(string path, GrayImage picture)
    {
        using Mat pixels = EightBitPictures.ToMat(picture);
        Cv2.ImWrite(path, pixels);
    }
}
