using BosFlow.Results.Boards;
using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Tests.Boards;

/// <summary>Boards for the tests.</summary>
internal static class SampleBoards
{
    public const double Margin = 0.008;

    private static readonly DateOnly Date = new(2026, 11, 25);

    /// <summary>Paper of a quarter of A4: quick to render.</summary>
    public static PaperSize SmallPaper { get; } = new("A6", 0.105, 0.148);

    /// <summary>A board that fills one sheet.</summary>
    public static BoardPrint Filling(PaperSize paper, double dotMillimetres, BoardTones tones = BoardTones.Dark, double inkGainMillimetres = 0) => Print(
        new BoardSettings
        {
            WidthMetres = paper.WidthMetres - (2 * Margin),
            HeightMetres = paper.HeightMetres - (2 * Margin),
            Sizes = [new DotSize(dotMillimetres / 1000, 1)],
            Tones = tones,
            Seed = 5,
            InkGainMetres = inkGainMillimetres / 1000,
        },
        paper);

    /// <summary>A board cut to two by two small sheets.</summary>
    public static BoardPrint Tiled(BoardTones tones = BoardTones.Dark) => Print(
        new BoardSettings { WidthMetres = 0.16, HeightMetres = 0.2, Sizes = [new DotSize(0.0012, 1)], Tones = tones, Seed = 5, LongestRulerMetres = 0.05 },
        SmallPaper);

    public static BoardPrint Print(BoardSettings settings, PaperSize paper) => new()
    {
        Board = BoardMaker.Make(settings, CancellationToken.None),
        Plan = SheetPlanner.Plan(settings.WidthMetres, settings.HeightMetres, paper, landscape: false, Margin, overlapMetres: 0.010),
        Date = Date,
        ProgramVersion = "0.0-test",
    };

    public static byte[] Bytes(Action<Stream> write)
    {
        using var stream = new MemoryStream();
        write(stream);
        return stream.ToArray();
    }
}
