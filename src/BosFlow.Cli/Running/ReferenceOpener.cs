using BosFlow.Footage;
using BosFlow.Media;
using BosFlow.Pipeline;
using BosFlow.Registration;

namespace BosFlow.Cli.Running;

/// <summary>Finds the frames that the reference picture is made of, and checks them against the footage.</summary>
internal static class ReferenceOpener
{
    /// <summary>Opens the reference.</summary>
    /// <param name="experiment">The case.</param>
    /// <param name="folder">Folder that its paths are relative to.</param>
    /// <param name="footage">The opened footage.</param>
    /// <param name="cancellationToken">Stops between two files.</param>
    /// <exception cref="InputDataException">A picture cannot be used or has another size than the footage, or frames that do not exist are named.</exception>
    public static ReferenceSource Open(ExperimentCase experiment, string folder, IFootage footage, CancellationToken cancellationToken)
    {
        ReferenceSettings settings = experiment.Reference;
        if (settings.Images.Count > 0)
            return OfPictures(settings.Images, folder, footage.Info, cancellationToken);
        if (settings.Use is not null)
        {
            IReadOnlyList<int> flowOff = FrameSelection.Parse(settings.Use, footage.Info.FrameCount, "reference.use");
            return OfFrames(flowOff, settings.Use, footage, cancellationToken) with { Later = Later(settings, flowOff, footage, cancellationToken) };
        }

        IReadOnlyList<int> all = FrameSelection.Resolve(experiment.Footage, footage.Info);
        return new ReferenceSource(footage.Read(all, cancellationToken), "the measured frames themselves", [], WholeClip: true) { FrameCount = all.Count };
    }

    private static ReferenceSource OfFrames(IReadOnlyList<int> frames, string range, IFootage footage, CancellationToken cancellationToken)
    {
        IReadOnlyList<double> times = footage.Info.TimesSeconds;
        return new ReferenceSource(footage.Read(frames, cancellationToken), $"flow-off frames {range} of the footage", [], WholeClip: false)
        {
            FrameCount = frames.Count,
            MeanTime = frames.Average(index => double.IsFinite(times[index]) ? times[index] : index),
        };
    }

    private static List<ReferenceSource> Later(ReferenceSettings settings, IReadOnlyList<int> first, IFootage footage, CancellationToken cancellationToken)
    {
        var taken = first.ToDictionary(frame => frame, _ => settings.Use!);
        var later = new List<ReferenceSource>();
        foreach (string range in settings.UseLater)
        {
            IReadOnlyList<int> frames = FrameSelection.Parse(range, footage.Info.FrameCount, "reference.use_later");
            foreach (int frame in frames)
            {
                if (!taken.TryAdd(frame, range))
                    throw new InputDataException(FormattableString.Invariant($"Frame {frame} is in \"{taken[frame]}\" and in \"{range}\" of reference.use and use_later: stretches of flow-off frames must not overlap, so shorten one."));
            }

            later.Add(OfFrames(frames, range, footage, cancellationToken));
        }

        return later;
    }

    private static ReferenceSource OfPictures(IReadOnlyList<string> images, string folder, FootageInfo info, CancellationToken cancellationToken)
    {
        IFootage pictures = FootageOpener.Open(new FootageSettings { Frames = images }, folder, cancellationToken);
        if (pictures.Info.Width != info.Width || pictures.Info.Height != info.Height)
        {
            throw new InputDataException(FormattableString.Invariant(
                $"The reference {pictures.Info.Files[0]} has {pictures.Info.Width} x {pictures.Info.Height} px, the frames have {info.Width} x {info.Height} px; take both with the same camera at the same size."));
        }

        // The first one gives the pixel grid of everything, so it is read to its end before any work.
        Frame first = pictures.Read([0], cancellationToken).First();
        if (first.Failure is not null)
            throw new InputDataException($"The reference {first.Source} cannot be used: {first.Failure}");
        int[] every = [.. Enumerable.Range(0, pictures.Info.FrameCount)];
        string names = string.Join(", ", pictures.Info.Files.Take(3).Select(Path.GetFileName)) + (pictures.Info.Files.Count > 3 ? ", ..." : string.Empty);
        return new ReferenceSource(pictures.Read(every, cancellationToken), names, pictures.Info.Files, WholeClip: false) { FrameCount = every.Length };
    }
}
