using BosFlow.Cli.CaseFile;
using BosFlow.Footage;
using BosFlow.Media;
using BosFlow.Optics;
using BosFlow.Pipeline;
using BosFlow.Triage;

namespace BosFlow.Cli.Triage;

/// <summary>Opens what is to be judged: a video, a folder of pictures or a pattern, with or without a case.</summary>
internal static class TriageOpener
{
    private static readonly string[] PictureEndings = [".png", ".tif", ".tiff", ".jpg", ".jpeg", ".bmp"];

    /// <summary>Opens footage and case; reads headers and time stamps alone.</summary>
    /// <param name="path">Absolute path of a video, a picture, a folder of pictures, or a pattern.</param>
    /// <param name="casePath">Absolute path of a case file or its folder; null for none.</param>
    /// <param name="cancellationToken">Stops between two files.</param>
    /// <exception cref="InputDataException">Something cannot be read.</exception>
    /// <exception cref="ConfigurationException">The case file cannot be used.</exception>
    public static TriageRequest Open(string path, string? casePath, CancellationToken cancellationToken)
    {
        ExperimentCase? experiment = casePath is null ? null : CaseFileReader.Read(casePath).Experiment;
        FootageSettings settings = Settings(path) with { FrameRateHz = experiment?.Footage.FrameRateHz, Decoder = experiment?.Footage.Decoder ?? VideoDecoder.Automatic };
        IFootage footage = FootageOpener.Open(settings, Path.GetDirectoryName(path)!, cancellationToken);
        FootageInfo info = footage.Info;
        var request = new TriageRequest { Footage = footage };
        if (settings.Video is not null)
            request = request with { BitsPerPixel = 8.0 * info.Files.Sum(file => new FileInfo(file).Length) / ((double)info.FrameCount * info.Width * info.Height) };
        return experiment is null ? request : request with
        {
            Measurable = RegionMask.Build(experiment.Region, info.Width, info.Height).Undisturbed,
            Displacement = experiment.Displacement,
            Scale = experiment.Rig is null ? null : OpticalScaling.From(experiment.Rig, experiment.Gas),
        };
    }

    private static FootageSettings Settings(string path)
    {
        if (Directory.Exists(path))
        {
            string? ending = PictureEndings.FirstOrDefault(wanted => Directory.EnumerateFiles(path, "*" + wanted).Any());
            return ending is null
                ? throw new InputDataException($"{path} holds no picture ({string.Join(", ", PictureEndings)}): give a video, a folder of pictures, or a pattern such as \"{Path.Combine(path, "*.png")}\".")
                : new FootageSettings { Frames = [Path.Combine(path, "*" + ending)] };
        }

        bool pictures = path.AsSpan().IndexOfAny('*', '?') >= 0 && !File.Exists(path);
        return pictures || PictureEndings.Contains(Path.GetExtension(path), StringComparer.OrdinalIgnoreCase)
            ? new FootageSettings { Frames = [path] }
            : new FootageSettings { Video = path };
    }
}
