using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Boards;

/// <summary>What a sheet is drawn on. Every length in m from the upper left corner of the sheet; grey from 0 (black) to 255 (white).</summary>
internal interface IDrawingSurface
{
    /// <summary>Fills a rectangle.</summary>
    void Fill(BoardRectangle area, byte grey);

    /// <summary>Fills discs of one diameter.</summary>
    void Discs(IReadOnlyList<SheetPoint> centres, double diameter, byte grey);

    /// <summary>Fills closed outlines as one shape: what lies inside an odd number of them.</summary>
    void Shape(IReadOnlyList<IReadOnlyList<SheetPoint>> outlines, byte grey);

    /// <summary>A straight line with blunt ends.</summary>
    void Line(SheetPoint from, SheetPoint to, double width, byte grey);

    /// <summary>One line of text.</summary>
    void Text(SheetText text);

    /// <summary>Draws something of which only the part inside a rectangle is kept.</summary>
    void Clipped(BoardRectangle area, Action draw);
}
