using BosFlow.Speckle;
using BosFlow.Speckle.Boards;

namespace BosFlow.Synthesis;

/// <summary>A printed board as a camera sees it square on, its middle in the middle of the picture.</summary>
public static class PrintedPattern
{
    /// <summary>The dots of a board of one size.</summary>
    /// <param name="board">The board; all its dots of one size.</param>
    /// <param name="metresPerPixel">Scale in the background plane, m/px, greater than 0.</param>
    /// <param name="width">Width of the picture, px.</param>
    /// <param name="height">Height of the picture, px.</param>
    /// <param name="contrast">Part of full scale by which a dot differs from the ground, greater than 0; dark dots get it with a minus.</param>
    /// <returns>Dots in px, those beyond the picture included, in the order of the board.</returns>
    /// <exception cref="ArgumentException">The board has dots of several sizes.</exception>
    public static IReadOnlyList<Dot> Seen(Board board, double metresPerPixel, int width, int height, double contrast)
    {
        ArgumentNullException.ThrowIfNull(board);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(metresPerPixel);
        if (board.Settings.Sizes.Count != 1)
            throw new ArgumentException("A scene renders dots of one size.", nameof(board));
        double middleX = board.Pattern.Left + (board.Pattern.Width / 2);
        double middleY = board.Pattern.Top + (board.Pattern.Height / 2);
        return [.. board.Dots.Select(dot => new Dot(
            ((dot.X - middleX) / metresPerPixel) + ((width - 1) / 2.0), ((dot.Y - middleY) / metresPerPixel) + ((height - 1) / 2.0), dot.IsLight ? contrast : -contrast))];
    }
}
