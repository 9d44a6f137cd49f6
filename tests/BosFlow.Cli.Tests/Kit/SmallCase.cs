using System.Globalization;
using BosFlow.Footage;
using BosFlow.Synthesis;
using BosFlow.TestKit;
using SixLabors.ImageSharp;
using SixLabors.ImageSharp.PixelFormats;

namespace BosFlow.Cli.Tests.Kit;

/// <summary>A complete small case on disk: a synthetic board, displaced evenly to the right by a known shift, seen by a camera at rest.</summary>
internal sealed class SmallCase : IDisposable
{
    public const int Width = 192;
    public const int Height = 128;
    public const double ShiftPixels = 0.7;

    private static readonly SyntheticScene Scene = new(
        new SceneRecipe
        {
            Width = Width,
            Height = Height,
            FrameCount = 1 + MostFrames,
            FlowOffCount = 1,
            Flow = new FlowRecipe.Shift(ShiftPixels, 0),
            Sensor = new SensorSettings { NoisePercent = 1 },
            Seed = 7,
        },
        CancellationToken.None);

    // Rendering is the same for every test of the process, so each frame is rendered once.
    private static readonly Lazy<GrayImage>[] Rendered = [.. Enumerable.Range(0, 1 + MostFrames).Select(frame => new Lazy<GrayImage>(() => Scene.Render(frame, CancellationToken.None)))];

    private const int MostFrames = 8;

    private readonly TemporaryFolder folder = new();

    /// <summary>Writes reference, frames and case file.</summary>
    /// <param name="frames">Number of frames, up to 8.</param>
    public SmallCase(int frames = 4)
    {
        WritePicture("reference.png", Rendered[0].Value);
        for (int i = 0; i < frames; i++)
            WritePicture(FrameName(i), Rendered[1 + i].Value);
        WriteCase(Text);
    }

    /// <summary>The case file's text: all of the picture undisturbed would take the shift out as shake, so no motion is taken out.</summary>
    public static string Text =>
        """
        [footage]
        frames = "frames/*.png"
        frame_rate_hz = 50.0
        [reference]
        image = "reference.png"
        [registration]
        motion = "none"
        [displacement]
        quality = "fast"
        [rig]
        lens_to_flow_mm = 1200.0
        flow_to_background_mm = 800.0
        background_mm_per_px = 0.31

        """;

    /// <summary>Folder of the case; its name has a space and letters outside ASCII.</summary>
    public string Folder => folder.Root;

    /// <summary>Folder of the results.</summary>
    public string RunFolder => Path.Combine(Folder, "run");

    /// <summary>Path of a frame relative to the folder.</summary>
    /// <param name="index">Number of the frame.</param>
    public static string FrameName(int index) => string.Create(CultureInfo.InvariantCulture, $"frames/f{index}.png");

    /// <summary>Absolute path of something in the folder.</summary>
    /// <param name="path">Path relative to it.</param>
    public string PathOf(string path) => folder.PathOf(path);

    /// <summary>Writes the case file.</summary>
    /// <param name="text">Its text.</param>
    public void WriteCase(string text) => folder.Write("case.toml", text);

    /// <summary>Adds lines at the end of the case file.</summary>
    /// <param name="lines">TOML, with its section heading.</param>
    public void Append(string lines) => WriteCase(Text + lines);

    /// <summary>Replaces a frame by a picture of one grey level.</summary>
    /// <param name="index">Number of the frame.</param>
    /// <param name="level">Grey level, 0 to 255.</param>
    public void MakeFlat(int index, byte level) => WriteFlat(FrameName(index), Width, Height, level);

    /// <summary>Writes a picture of one grey level.</summary>
    /// <param name="path">Path relative to the folder.</param>
    /// <param name="width">Width, px.</param>
    /// <param name="height">Height, px.</param>
    /// <param name="level">Grey level, 0 to 255.</param>
    public void WriteFlat(string path, int width, int height, byte level)
    {
        using var picture = new Image<L8>(width, height, new L8(level));
        picture.SaveAsPng(folder.PathOf(path));
    }

    /// <summary>Cuts a file to a part of its length.</summary>
    /// <param name="path">Path relative to the folder.</param>
    /// <param name="share">Part that remains, 0 to 1.</param>
    public void Truncate(string path, double share)
    {
        using FileStream file = File.Open(folder.PathOf(path), FileMode.Open);
        file.SetLength((long)(file.Length * share));
    }

    /// <summary>Writes a text file.</summary>
    /// <param name="path">Path relative to the folder.</param>
    /// <param name="text">The whole content.</param>
    public void Write(string path, string text) => folder.Write(path, text);

    /// <inheritdoc/>
    public void Dispose() => folder.Dispose();

    private void WritePicture(string path, GrayImage image)
    {
        using var picture = new Image<L8>(image.Width, image.Height);
        for (int y = 0; y < image.Height; y++)
        {
            for (int x = 0; x < image.Width; x++)
                picture[x, y] = new L8((byte)image[x, y]);
        }

        picture.SaveAsPng(folder.PathOf(path));
    }
}
