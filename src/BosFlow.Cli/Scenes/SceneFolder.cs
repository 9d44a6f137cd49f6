using System.Globalization;
using BosFlow.Cli.Lenses;
using BosFlow.Footage;
using BosFlow.Media;
using BosFlow.Results.Files;
using BosFlow.Results.Maps;
using BosFlow.Synthesis;

namespace BosFlow.Cli.Scenes;

/// <summary>Writes the folder of a synthetic scene: frames, truth, recipe, and a case file that is ready to run.</summary>
internal static class SceneFolder
{
    /// <summary>Name of the recipe in the folder.</summary>
    public const string RecipeName = "recipe.toml";

    /// <summary>Name of the case file for the image sequence.</summary>
    public const string CaseName = "case.toml";

    /// <summary>Name of the case file for the video.</summary>
    public const string VideoCaseName = "case-video.toml";

    /// <summary>Refuses a folder that cannot be made: one that exists with something in it, or a file of that name.</summary>
    /// <param name="folder">Absolute path.</param>
    /// <param name="hint">What to do instead, a sentence's end.</param>
    public static void RequireFree(string folder, string hint)
    {
        if (File.Exists(folder))
            throw new InputDataException($"{folder} is a file; {hint}");
        if (Directory.Exists(folder) && Directory.EnumerateFileSystemEntries(folder).Any())
            throw new InputDataException($"{folder} exists already and is not empty; {hint}");
    }

    /// <summary>Writes everything under a temporary name beside the folder, then renames it: the folder is whole or not there.</summary>
    /// <param name="folder">Absolute path; free, see <see cref="RequireFree"/>.</param>
    /// <param name="scene">The scene.</param>
    /// <param name="recipeText">Text of its recipe.</param>
    /// <param name="encoding">How a video is encoded, which is written too, with a case file for it; null = none.</param>
    /// <param name="onFrame">Told the number of frames written, after each.</param>
    /// <param name="cancellationToken">Stops between two frames and leaves nothing behind.</param>
    /// <returns>How the video was encoded; null without one.</returns>
    public static WrittenVideo? Write(string folder, SyntheticScene scene, string recipeText, VideoEncoding? encoding, Action<int> onFrame, CancellationToken cancellationToken)
    {
        // With this process's number, so that a folder of somebody's own is neither written into nor removed.
        string temporary = FormattableString.Invariant($"{folder.TrimEnd(Path.DirectorySeparatorChar)}.{Environment.ProcessId}.part");
        if (Path.Exists(temporary))
            throw new InputDataException($"{temporary} exists already and is needed while the scene is written; remove it, or choose another folder.");
        try
        {
            Directory.CreateDirectory(Path.Combine(temporary, "frames"));
            WrittenVideo? video = WriteFrames(temporary, scene, encoding, onFrame, cancellationToken);
            TruthFile.Write(Path.Combine(temporary, TruthFile.Name), scene, cancellationToken);
            AtomicFile.WriteText(Path.Combine(temporary, RecipeName), recipeText);
            if (scene.Recipe.Lens is { } lens)
                AtomicFile.WriteText(Path.Combine(temporary, SceneCaseText.LensName), LensFileWriter.Text(lens));
            AtomicFile.WriteText(Path.Combine(temporary, CaseName), SceneCaseText.Write(scene, null, "run"));
            if (video is not null)
                AtomicFile.WriteText(Path.Combine(temporary, VideoCaseName), SceneCaseText.Write(scene, Path.GetFileName(video.Path), "run-video"));
            if (Directory.Exists(folder))
                Directory.Delete(folder);
            Directory.Move(temporary, folder);
            return video;
        }
        catch (UnauthorizedAccessException exception)
        {
            throw new InputDataException($"{folder} may not be written by this user; choose another folder.", exception);
        }
        finally
        {
            if (Directory.Exists(temporary))
                Directory.Delete(temporary, recursive: true);
        }
    }

    private static WrittenVideo? WriteFrames(string folder, SyntheticScene scene, VideoEncoding? encoding, Action<int> onFrame, CancellationToken cancellationToken)
    {
        IEnumerable<GrayImage> frames = RenderAndWrite(folder, scene, onFrame, cancellationToken);
        if (encoding is not null)
            return WriteVideo(Path.Combine(folder, "video.mp4"), frames, scene.Recipe.FrameRateHz, encoding, cancellationToken);
        foreach (GrayImage _ in frames)
        {
        }

        return null;
    }

    // What a recipe says nothing about may be written losslessly where ffmpeg is missing.
    private static WrittenVideo WriteVideo(string path, IEnumerable<GrayImage> frames, double frameRateHz, VideoEncoding encoding, CancellationToken cancellationToken) =>
        encoding.IsStandard ? VideoFileWriter.Write(path, frames, frameRateHz, cancellationToken) : VideoFileWriter.Write(path, frames, frameRateHz, encoding, cancellationToken);

    /// <summary>Hands every frame on after its file was written, so that the video needs no second rendering.</summary>
    private static IEnumerable<GrayImage> RenderAndWrite(string folder, SyntheticScene scene, Action<int> onFrame, CancellationToken cancellationToken)
    {
        for (int frame = 0; frame < scene.Recipe.FrameCount; frame++)
        {
            GrayImage image = scene.Render(frame, cancellationToken);
            string name = frame.ToString("000000", CultureInfo.InvariantCulture) + ".png";
            GrayPicture.WritePng(Path.Combine(folder, "frames", name), image, scene.Recipe.Sensor.PictureBits);
            onFrame(frame + 1);
            yield return image;
        }
    }
}
