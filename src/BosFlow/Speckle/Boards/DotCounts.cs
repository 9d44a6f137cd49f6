namespace BosFlow.Speckle.Boards;

/// <summary>How many dots of each size give the coverage asked for.</summary>
internal static class DotCounts
{
    public static double AreaOf(DotSize size) => Math.PI / 4 * size.DiameterMetres * size.DiameterMetres;

    /// <summary>Numbers of dots, by size; as floating point because a bad request may ask for more than an integer holds.</summary>
    public static IEnumerable<double> Of(BoardSettings settings, double freeArea) =>
        settings.Sizes.Select(size => Math.Round(settings.Coverage * size.Share * freeArea / AreaOf(size)));
}
