using System.Globalization;
using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Boards;

/// <summary>A board in words.</summary>
public static class BoardWords
{
    private const double MillimetresPerMetre = 1e3;
    private const double Percent = 100;

    /// <summary>A length in mm with up to three decimals, without the unit.</summary>
    /// <param name="metres">The length, m.</param>
    public static string Millimetres(double metres) => Math.Round(metres * MillimetresPerMetre, 3).ToString("0.###", CultureInfo.InvariantCulture);

    /// <summary>Width and height: <c>194 x 281 mm</c>.</summary>
    /// <param name="width">m.</param>
    /// <param name="height">m.</param>
    public static string Area(double width, double height) => $"{Millimetres(width)} x {Millimetres(height)} mm";

    /// <summary>Sizes of the dots: <c>1 mm</c>, <c>1.6 mm (70 %) and 0.8 mm (30 %)</c>.</summary>
    /// <param name="sizes">The sizes.</param>
    public static string Sizes(IReadOnlyList<DotSize> sizes)
    {
        ArgumentNullException.ThrowIfNull(sizes);
        if (sizes.Count == 1)
            return $"{Millimetres(sizes[0].DiameterMetres)} mm";
        string[] each = [.. sizes.Select(size => $"{Millimetres(size.DiameterMetres)} mm ({(size.Share * Percent).ToString("0.#", CultureInfo.InvariantCulture)} %)")];
        return $"{string.Join(", ", each[..^1])} and {each[^1]}";
    }

    /// <summary>How dots stand out against the ground.</summary>
    /// <param name="tones">The tones.</param>
    public static string Tones(BoardTones tones) => tones switch
    {
        BoardTones.Inverted => "white dots on black",
        BoardTones.TwoTone => "black and white dots on grey",
        _ => "black dots on white",
    };

    /// <summary>Title of a document that shows the board.</summary>
    /// <param name="board">The board.</param>
    public static string Title(Board board)
    {
        ArgumentNullException.ThrowIfNull(board);
        return $"Dot pattern {Area(board.Settings.WidthMetres, board.Settings.HeightMetres)}, dots of {Sizes(board.Settings.Sizes)}, seed {board.Settings.Seed}";
    }
}
