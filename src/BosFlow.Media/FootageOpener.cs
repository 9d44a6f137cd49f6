using BosFlow.Footage;
using BosFlow.Media.Sequences;

namespace BosFlow.Media;

/// <summary>Opens footage: an image sequence or a video.</summary>
public static class FootageOpener
{
    /// <summary>Opens the footage that the settings name; reads headers and time stamps, no frame.</summary>
    /// <param name="settings">Files, and how to read them.</param>
    /// <param name="baseFolder">Folder that relative paths start from: the case file's.</param>
    /// <param name="cancellationToken">Stops between two files.</param>
    /// <exception cref="InputDataException">A file is missing, empty, not readable or not what it should be; the frames have different sizes; both or neither of frames and video are given.</exception>
    public static IFootage Open(FootageSettings settings, string baseFolder, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        ArgumentNullException.ThrowIfNull(baseFolder);
        string folder = Path.GetFullPath(baseFolder);
        if (settings.Video is not null && settings.Frames.Count > 0)
            throw new InputDataException("footage.frames and footage.video are both given: remove one.");
        if (settings.FrameRateHz is double rate && !(rate > 0 && double.IsFinite(rate)))
            throw new InputDataException(FormattableString.Invariant($"footage.frame_rate_hz = {rate} must be above 0."));
        if (settings.Video is not null)
            return Video.VideoOpener.Open(settings, folder, cancellationToken);
        return settings.Frames.Count > 0
            ? ImageSequence.Open(settings, folder, cancellationToken)
            : throw new InputDataException("No footage is given: write footage.frames = \"folder/*.png\" or footage.video = \"clip.mp4\".");
    }
}
