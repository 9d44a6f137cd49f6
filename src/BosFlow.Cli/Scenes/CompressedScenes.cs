using BosFlow.Footage;
using BosFlow.Media;
using BosFlow.Synthesis;

namespace BosFlow.Cli.Scenes;

/// <summary>Scenes as videos that an action camera would have written, in a temporary folder that goes with this object.</summary>
internal sealed class CompressedScenes : IDisposable
{
    /// <summary>Codec and rate in words.</summary>
    public const string Words = "H.264 at 30 Mbit/s";

    // What action cameras write for 1280 x 720 at 60 frames a second: common practice, no source.
    private static readonly VideoEncoding Encoding = new() { MegabitsPerSecond = 30 };

    private DirectoryInfo? folder;
    private int count;

    /// <summary>Whether such a video can be written on this machine.</summary>
    /// <param name="cancellationToken">Ends the question to ffmpeg.</param>
    public static bool ArePossible(CancellationToken cancellationToken)
    {
        try
        {
            Encoding.RequireTools(cancellationToken);
            return true;
        }
        catch (InputDataException)
        {
            return false;
        }
    }

    /// <summary>Writes a scene's frames as a video and opens it.</summary>
    /// <param name="scene">The scene.</param>
    /// <param name="cancellationToken">Stops between two frames.</param>
    public IFootage Film(SyntheticScene scene, CancellationToken cancellationToken)
    {
        folder ??= Directory.CreateTempSubdirectory("bosflow-validate-");
        string path = Path.Combine(folder.FullName, FormattableString.Invariant($"{count++}.mp4"));
        IEnumerable<GrayImage> frames = Enumerable.Range(0, scene.Recipe.FrameCount).Select(frame => scene.Render(frame, cancellationToken));
        WrittenVideo video = VideoFileWriter.Write(path, frames, scene.Recipe.FrameRateHz, Encoding, cancellationToken);
        return FootageOpener.Open(new FootageSettings { Video = video.Path }, folder.FullName, cancellationToken);
    }

    /// <summary>Removes the videos.</summary>
    public void Dispose() => folder?.Delete(recursive: true);
}
