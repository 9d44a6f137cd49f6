namespace BosFlow.ForeignBytes.Readers;

/// <summary>Everything of the program that reads bytes it did not make.</summary>
public static class ForeignReaders
{
    /// <summary>The readers in the order of a report.</summary>
    public static IReadOnlyList<ForeignReader> All { get; } =
    [
        new("case", "case file", true, TextInputs.Cases),
        new("plan", "case to plan", true, TextInputs.Plans),
        new("recipe", "recipe of a scene", true, TextInputs.Recipes),
        new("lens", "lens file", true, TextInputs.Lenses),
        new("board", "description of a printed board", true, BoardInputs.Descriptions),
        new("dots", "table of a board's dots", true, BoardInputs.Dots),
        new("png", "PNG, 8 and 16 bit", false, PictureInputs.Png),
        new("jpeg", "JPEG", false, PictureInputs.Jpeg),
        new("tiff", "TIFF, 8 and 16 bit, float, packed and plain", false, PictureInputs.Tiff),
        new("bmp", "BMP", false, PictureInputs.Bmp),
        new("photo", "photo of a board, with the search for its fiducials", false, PictureInputs.Photos),
        new("frame", "netCDF of a frame", false, RunInputs.Frames),
        new("summary", "netCDF of summary and reference", false, RunInputs.Summaries),
        new("run", "run.json", true, RunInputs.Documents),
        new("frames-table", "frames.csv", true, RunInputs.Tables),
        new("video-embedded", "mp4, avi and mkv, decoded by OpenCV", false, VideoInputs.Embedded),
        new("video-ffmpeg", "mp4, avi and mkv, decoded by ffmpeg", false, VideoInputs.Ffmpeg),
    ];
}
