using BosFlow.Camera;
using BosFlow.Optics;
using BosFlow.Speckle.Boards;

namespace BosFlow.Pipeline;

/// <summary>How a printed board looks in the pictures of a run.</summary>
public sealed record BoardImage
{
    /// <summary>Least width of a dot's image, px: below it the displacement depends on where a dot lies between pixels (Westerweel 1997, from memory).</summary>
    public const double LeastDotPixels = 2;

    /// <summary>Largest width of a dot's image, px: above it fewer dots share a window. Common practice, no source.</summary>
    public const double LargestDotPixels = 5;

    /// <summary>Width of the image of each size of dots, px, in the order of the sizes.</summary>
    public required IReadOnlyList<double> DotPixels { get; init; }

    /// <summary>Mean number of dots in an interrogation window.</summary>
    public required double DotsInWindow { get; init; }

    /// <summary>The image of a board at a scale.</summary>
    /// <param name="board">The board.</param>
    /// <param name="scale">Scale of the run.</param>
    /// <param name="windowPixels">Side of the window, px.</param>
    public static BoardImage Of(BoardFacts board, OpticalScale scale, int windowPixels)
    {
        ArgumentNullException.ThrowIfNull(board);
        ArgumentNullException.ThrowIfNull(scale);
        double[] pixels = [.. board.DotSizes.Select(size => size.DiameterMetres / scale.BackgroundMetresPerPixel)];
        double dots = board.DotSizes.Select((size, i) => size.Share * board.Coverage * windowPixels * windowPixels / (Math.PI / 4 * pixels[i] * pixels[i])).Sum();
        return new BoardImage { DotPixels = pixels, DotsInWindow = dots };
    }

    /// <summary>What the user should know of the board, one sentence each.</summary>
    /// <param name="board">The board; null = none is given.</param>
    /// <param name="scale">Scale of the run; null where it has no rig.</param>
    /// <param name="windowPixels">Side of the window, px.</param>
    /// <param name="seen">Scale of the board as it shows itself in the reference; null = it was not found.</param>
    public static IReadOnlyList<string> Warnings(BoardFacts? board, OpticalScale? scale, int windowPixels, BoardScale? seen)
    {
        if (board is null)
            return [];
        List<string> warnings = [];
        if (scale is not null)
            AddDots(warnings, board, scale, windowPixels);
        if (seen is not null)
            warnings.AddRange(BoardScaleWarnings.Of(board, scale, seen));
        return warnings;
    }

    private static void AddDots(List<string> warnings, BoardFacts board, OpticalScale scale, int windowPixels)
    {
        BoardImage image = Of(board, scale, windowPixels);
        if (image.DotPixels.Any(pixels => pixels is >= LeastDotPixels and <= LargestDotPixels))
            return;
        string sizes = string.Join(" and ", board.DotSizes.Select((size, i) => FormattableString.Invariant($"{size.DiameterMetres * 1e3:0.###} mm are {image.DotPixels[i]:0.0} px wide")));
        double wanted = scale.BackgroundMetresPerPixel * 1e3;
        warnings.Add(FormattableString.Invariant($"The dots of the board ({board.Description}) of {sizes} in the picture; {LeastDotPixels:0} to {LargestDotPixels:0} px give the least error, so print a board with dots of {2.5 * wanted:0.##} mm for this distance."));
    }
}
