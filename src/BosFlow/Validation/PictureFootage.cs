using BosFlow.Footage;

namespace BosFlow.Validation;

/// <summary>Pictures in memory as footage.</summary>
/// <param name="pictures">At least one picture, all of one size.</param>
/// <param name="frameRateHz">Frame rate, Hz.</param>
internal sealed class PictureFootage(IReadOnlyList<GrayImage> pictures, double frameRateHz) : IFootage
{
    public FootageInfo Info { get; } = new()
    {
        Width = pictures[0].Width,
        Height = pictures[0].Height,
        TimesSeconds = [.. Enumerable.Range(0, pictures.Count).Select(index => index / frameRateHz)],
        Files = [],
        Description = "pictures in memory",
    };

    public IEnumerable<Frame> Read(IReadOnlyList<int> indices, CancellationToken cancellationToken)
    {
        foreach (int index in indices)
        {
            cancellationToken.ThrowIfCancellationRequested();
            yield return new Frame(index, Info.TimesSeconds[index], FormattableString.Invariant($"picture {index}"), pictures[index], null);
        }
    }
}
