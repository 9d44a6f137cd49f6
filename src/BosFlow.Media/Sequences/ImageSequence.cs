using BosFlow.Footage;
using BosFlow.Media.Pictures;

namespace BosFlow.Media.Sequences;

/// <summary>Footage that is one picture file a frame.</summary>
internal sealed class ImageSequence : IFootage
{
    private readonly IReadOnlyList<string> names;

    private ImageSequence(FootageInfo info, IReadOnlyList<string> names)
    {
        Info = info;
        this.names = names;
    }

    public FootageInfo Info { get; }

    /// <summary>Finds the files, and checks by their headers that they are pictures of one size.</summary>
    /// <exception cref="InputDataException">A file cannot be opened, is no picture, or has another size than the first.</exception>
    internal static ImageSequence Open(FootageSettings settings, string baseFolder, CancellationToken cancellationToken)
    {
        string[] files = [.. settings.Frames.SelectMany(pattern => PathPattern.Find(pattern, baseFolder))];
        string[] names = [.. files.Select(file => Path.GetRelativePath(baseFolder, file))];
        var kinds = new SortedSet<string>(StringComparer.Ordinal);
        PictureHeader? first = null;
        for (int i = 0; i < files.Length; i++)
        {
            cancellationToken.ThrowIfCancellationRequested();
            PictureHeader header = PictureReader.ReadHeader(files[i], names[i]);
            first ??= header;
            if (header.Size != first.Size)
                throw new InputDataException(FormattableString.Invariant($"{names[i]} is {header.Size.Width} x {header.Size.Height} px, but {names[0]} is {first.Size.Width} x {first.Size.Height}: all frames must have one size, so leave the odd one out."));
            kinds.Add(header.Description);
        }

        FootageInfo info = new()
        {
            Width = first!.Size.Width,
            Height = first.Size.Height,
            TimesSeconds = Times(files.Length, settings.FrameRateHz),
            Files = files,
            Description = FormattableString.Invariant($"image sequence, {files.Length} files, {string.Join(" and ", kinds)}"),
            Warnings = kinds.Count > 1 ? [$"The frames are of different kinds ({string.Join(" and ", kinds)}); they are scaled to the reference's grey levels."] : [],
        };
        return new ImageSequence(info, names);
    }

    public IEnumerable<Frame> Read(IReadOnlyList<int> indices, CancellationToken cancellationToken)
    {
        foreach (int index in indices)
        {
            cancellationToken.ThrowIfCancellationRequested();
            yield return ReadOne(index);
        }
    }

    private Frame ReadOne(int index)
    {
        (GrayImage? image, string? failure) = (null, null);
        try
        {
            image = PictureReader.Read(Info.Files[index], names[index]);
            if ((image.Width, image.Height) != (Info.Width, Info.Height))
                (image, failure) = (null, $"{names[index]} has changed its size since the footage was opened.");
        }
        catch (InputDataException problem)
        {
            failure = problem.Message;
        }

        return new Frame(index, Info.TimesSeconds[index], names[index], image, failure);
    }

    private static double[] Times(int count, double? frameRateHz) =>
        [.. Enumerable.Range(0, count).Select(index => frameRateHz is double rate ? index / rate : double.NaN)];
}
