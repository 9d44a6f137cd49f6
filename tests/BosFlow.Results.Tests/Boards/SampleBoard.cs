using BosFlow.Results.Boards;
using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Tests.Boards;

/// <summary>Small boards for tests of descriptions.</summary>
internal static class SampleBoard
{
    public static BoardDocument Document(BoardSettings settings, bool isCutToSheets = false) => new()
    {
        Board = BoardMaker.Make(settings, CancellationToken.None),
        Sheets = isCutToSheets ? SheetPlanner.Plan(settings.WidthMetres, settings.HeightMetres, new PaperSize("card", 0.06, 0.09), null, 0.003, 0.005) : null,
        Date = new DateOnly(2026, 11, 25),
        ProgramVersion = "0.1.0",
    };

    public static BoardSettings Settings() => new()
    {
        WidthMetres = 0.1,
        HeightMetres = 0.08,
        Sizes = [new(2.5e-3, 0.6), new(1.23456e-3, 0.4)],
        FiducialSideMetres = 0.01,
        Tones = BoardTones.TwoTone,
        Seed = ulong.MaxValue,
    };
}
