using System.Globalization;
using System.Security;
using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Boards;

/// <summary>Draws a sheet as elements of an SVG whose unit is the millimetre.</summary>
/// <param name="writer">Receives the elements.</param>
/// <remarks>Source: W3C, Scalable Vector Graphics (SVG) 1.1 (Second Edition), 2011.</remarks>
internal sealed class SvgSurface(TextWriter writer) : IDrawingSurface
{
    private int clips;

    public void Fill(BoardRectangle area, byte grey) => writer.Write($"{Rectangle(area)} fill=\"{Colour(grey)}\"/>\n");

    public void Discs(IReadOnlyList<SheetPoint> centres, double diameter, byte grey)
    {
        string radius = SvgNumber.Of(diameter / 2);
        writer.Write($"<g fill=\"{Colour(grey)}\">\n");
        foreach (SheetPoint centre in centres)
            writer.Write($"<circle cx=\"{SvgNumber.Of(centre.X)}\" cy=\"{SvgNumber.Of(centre.Y)}\" r=\"{radius}\"/>\n");
        writer.Write("</g>\n");
    }

    public void Shape(IReadOnlyList<IReadOnlyList<SheetPoint>> outlines, byte grey) =>
        writer.Write($"<path d=\"{SvgNumber.Path(outlines)}\" fill=\"{Colour(grey)}\" fill-rule=\"evenodd\"/>\n");

    public void Line(SheetPoint from, SheetPoint to, double width, byte grey) => writer.Write(
        $"<line x1=\"{SvgNumber.Of(from.X)}\" y1=\"{SvgNumber.Of(from.Y)}\" x2=\"{SvgNumber.Of(to.X)}\" y2=\"{SvgNumber.Of(to.Y)}\" stroke=\"{Colour(grey)}\" stroke-width=\"{SvgNumber.Of(width)}\"/>\n");

    public void Text(SheetText text)
    {
        string anchor = text.Align switch
        {
            TextAlign.Begin => string.Empty,
            TextAlign.Middle => " text-anchor=\"middle\"",
            _ => " text-anchor=\"end\"",
        };
        string x = SvgNumber.Of(text.At.X);
        string y = SvgNumber.Of(text.At.Y);
        string turn = text.IsUpright ? $" transform=\"rotate(-90 {x} {y})\"" : string.Empty;
        writer.Write(
            $"<text x=\"{x}\" y=\"{y}\"{turn}{anchor} font-family=\"DejaVu Sans, sans-serif\" font-size=\"{SvgNumber.Of(text.Size)}\" fill=\"{Colour(text.Grey)}\">{SecurityElement.Escape(text.Words)}</text>\n");
    }

    public void Clipped(BoardRectangle area, Action draw)
    {
        clips++;
        string name = string.Create(CultureInfo.InvariantCulture, $"part{clips}");
        writer.Write($"<clipPath id=\"{name}\">{Rectangle(area)}/></clipPath>\n<g clip-path=\"url(#{name})\">\n");
        draw();
        writer.Write("</g>\n");
    }

    private static string Rectangle(BoardRectangle area) =>
        $"<rect x=\"{SvgNumber.Of(area.Left)}\" y=\"{SvgNumber.Of(area.Top)}\" width=\"{SvgNumber.Of(area.Width)}\" height=\"{SvgNumber.Of(area.Height)}\"";

    private static string Colour(byte grey) => string.Create(CultureInfo.InvariantCulture, $"#{grey:x2}{grey:x2}{grey:x2}");
}
