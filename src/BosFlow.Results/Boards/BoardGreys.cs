using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Boards;

/// <summary>Grey levels of a board: 0 is black, 255 is white.</summary>
internal static class BoardGreys
{
    public const byte Black = 0;
    public const byte White = 255;
    public const byte Middle = 128;

    /// <summary>The ground of the pattern.</summary>
    public static byte Ground(BoardTones tones) => tones switch
    {
        BoardTones.Inverted => Black,
        BoardTones.TwoTone => Middle,
        _ => White,
    };

    /// <summary>A dot.</summary>
    public static byte Dot(bool isLight) => isLight ? White : Black;

    /// <summary>A thin line that has to show on the ground of the pattern and on the white strips around it.</summary>
    public static byte Mark(BoardTones tones) => tones == BoardTones.Inverted ? Middle : Black;
}
