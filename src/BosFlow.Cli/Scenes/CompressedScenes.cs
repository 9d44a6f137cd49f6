using BosFlow.Footage;
using BosFlow.Media;
using BosFlow.Synthesis;

namespace BosFlow.Cli.Scenes;

/// <summary>Scenes as videos that an action camera would have written, in a temporary folder that goes with this object.</summary>
internal sealed class CompressedScenes : IDisposable
{
    /// <summary>Name of the codec.</summary>
    public const string Codec = "H.264";

    /// <summary>Rates that are tried, Mbit/s: 30 is what action cameras write for 1280 x 720 at 60 frames a second (common practice, no source).</summary>
    public static readonly IReadOnlyList<double> MegabitsPerSecond = [30, 60];

    private DirectoryInfo? folder;
    private int count;

    /// <summary>Whether such a video can be written on this machine.</summary>
    /// <param name="cancellationToken">Ends the question to ffmpeg.</param>
    public static bool ArePossible(CancellationToken cancellationToken)
    {
        try
        {
            Encoding(MegabitsPerSecond[0]).RequireTools(cancellationToken);
            return true;
        }
        catch (InputDataException)
        {
            return false;
        }
    }

    /// <summary>Writes a scene's frames as a video and opens it.</summary>
    /// <param name="scene">The scene.</param>
    /// <param name="megabitsPerSecond">Mean rate, Mbit/s.</param>
    /// <param name="cancellationToken">Stops between two frames.</param>
    public IFootage Film(SyntheticScene scene, double megabitsPerSecond, CancellationToken cancellationToken)
    {
        folder ??= Directory.CreateTempSubdirectory("bosflow-validate-");
        string path = Path.Combine(folder.FullName, FormattableString.Invariant($"{count++}.mp4"));
        IEnumerable<GrayImage> frames = Enumerable.Range(0, scene.Recipe.FrameCount).Select(frame => scene.Render(frame, cancellationToken));
        WrittenVideo video = VideoFileWriter.Write(path, frames, scene.Recipe.FrameRateHz, Encoding(megabitsPerSecond), cancellationToken);
        return FootageOpener.Open(new FootageSettings { Video = video.Path }, folder.FullName, cancellationToken);
    }

    // A camera's encoder works while it films: no frame waits for a later one, and a key frame comes twice a second (common practice, no source).
    private static VideoEncoding Encoding(double megabitsPerSecond) => new() { MegabitsPerSecond = megabitsPerSecond, KeyFrameEvery = 30, HasBidirectionalFrames = false };

    /// <summary>Removes the videos.</summary>
    public void Dispose() => folder?.Delete(recursive: true);
}
