using System.Globalization;
using BosFlow.Results.Boards;
using BosFlow.Speckle.Boards;
using BosFlow.TestKit;

namespace BosFlow.Results.Tests.Boards;

/// <summary>Boards drawn as files and rendered by other programs.</summary>
internal static class RenderedBoard
{
    public const int Dpi = 600;

    /// <summary>Dots of a sheet on its paper, those that lie whole in its print.</summary>
    public static IReadOnlyList<ExpectedDisc> Expected(BoardPrint print, Sheet sheet) => [.. print.Board.Dots
        .Where(dot => IsWhole(print, sheet.Printed, dot))
        .Select(dot => new ExpectedDisc(
            (dot.X - sheet.Printed.Left + sheet.OffsetX) * 1000,
            (dot.Y - sheet.Printed.Top + sheet.OffsetY) * 1000,
            print.Board.DrawnDiameter(dot) * 1000))];

    public static bool IsWhole(BoardPrint print, BoardRectangle area, PrintedDot dot)
    {
        double radius = print.Board.DrawnDiameter(dot) / 2;
        // A billionth lets a dot on the very edge count as inside.
        return dot.X - radius >= area.Left - 1e-9 && dot.X + radius <= area.Right + 1e-9 && dot.Y - radius >= area.Top - 1e-9 && dot.Y + radius <= area.Bottom + 1e-9;
    }

    public static string WritePdf(TemporaryFolder folder, BoardPrint print)
    {
        string path = folder.PathOf("board.pdf");
        File.WriteAllBytes(path, SampleBoards.Bytes(stream => BoardPdf.Write(stream, print, CancellationToken.None)));
        return path;
    }

    /// <summary>A page of a PDF, rendered by poppler.</summary>
    public static GreyPage Poppler(TemporaryFolder folder, string pdf, int page)
    {
        string number = page.ToString(CultureInfo.InvariantCulture);
        ChildProcess.Run("pdftoppm", "-r", Dpi.ToString(CultureInfo.InvariantCulture), "-gray", "-f", number, "-l", number, "-singlefile", pdf, folder.PathOf("page"));
        return GreyPage.ReadPgm(folder.PathOf("page.pgm"));
    }

    /// <summary>A PNG, unpacked by Pillow.</summary>
    public static (GreyPage Page, string Facts) Pillow(TemporaryFolder folder, string png)
    {
        string facts = ChildProcess.Python(
            """
            import sys
            from PIL import Image
            picture = Image.open(sys.argv[1])
            print(picture.mode, *picture.size, *picture.info.get('dpi', ()))
            if 'A' in picture.mode:
                white = Image.new('RGBA', picture.size, 'white')
                picture = Image.alpha_composite(white, picture.convert('RGBA'))
            picture.convert('L').save(sys.argv[2])
            """,
            png,
            folder.PathOf("unpacked.pgm"));
        return (GreyPage.ReadPgm(folder.PathOf("unpacked.pgm")), facts.Trim());
    }
}
