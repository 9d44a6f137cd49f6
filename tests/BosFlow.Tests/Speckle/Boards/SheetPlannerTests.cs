using BosFlow.Speckle.Boards;
using CsCheck;

namespace BosFlow.Tests.Speckle.Boards;

public sealed class SheetPlannerTests
{
    // Rounding of lengths up to some metres.
    private const double Rounding = 1e-9;

    private static readonly Gen<(double Width, double Height, PaperSize Paper, bool? Landscape, double Margin, double Overlap)> AnyRequest =
        Gen.Select(Gen.Double[0.02, 3], Gen.Double[0.02, 3], Gen.Int[0, PaperSize.Known.Count - 1].Select(i => PaperSize.Known[i]), Gen.Int[0, 2].Select(i => i == 0 ? (bool?)null : i == 1), Gen.Double[0, 0.02], Gen.Double[0, 0.03]);

    [Fact]
    public void Plan_AnyBoard_IsPutTogetherAgainByItsSheets() => AnyRequest.Sample(r =>
    {
        SheetPlan plan = SheetPlanner.Plan(r.Width, r.Height, r.Paper, r.Landscape, r.Margin, r.Overlap);

        Assert.Equal(plan.Columns * plan.Rows, plan.Sheets.Count);
        Assert.Equal(plan.Sheets.Count, plan.Sheets.Select(sheet => sheet.Name).Distinct().Count());
        for (int i = 0; i < plan.Sheets.Count; i++)
        {
            Sheet sheet = plan.Sheets[i];
            Assert.Equal((i % plan.Columns, i / plan.Columns), (sheet.Column, sheet.Row));
            Assert.True(sheet.Net.Width > 0 && sheet.Net.Height > 0);
            // Neighbours share an edge; the outermost edges are the board's.
            Assert.Equal(sheet.Column == 0 ? 0 : plan.Sheets[i - 1].Net.Right, sheet.Net.Left, Rounding);
            Assert.Equal(sheet.Row == 0 ? 0 : plan.Sheets[i - plan.Columns].Net.Bottom, sheet.Net.Top, Rounding);
            if (sheet.Column == plan.Columns - 1)
                Assert.Equal(r.Width, sheet.Net.Right, Rounding);
            if (sheet.Row == plan.Rows - 1)
                Assert.Equal(r.Height, sheet.Net.Bottom, Rounding);
        }
    });

    [Fact]
    public void Plan_AnyBoard_PrintsInsideTheMarginsAndUnderTheNeighbours() => AnyRequest.Sample(r =>
    {
        SheetPlan plan = SheetPlanner.Plan(r.Width, r.Height, r.Paper, r.Landscape, r.Margin, r.Overlap);

        Assert.All(plan.Sheets, sheet =>
        {
            Assert.Equal((sheet.Net.Left, sheet.Net.Top), (sheet.Printed.Left, sheet.Printed.Top));
            Assert.Equal(sheet.Column < plan.Columns - 1 ? r.Overlap : 0, sheet.Printed.Width - sheet.Net.Width, Rounding);
            Assert.Equal(sheet.Row < plan.Rows - 1 ? r.Overlap : 0, sheet.Printed.Height - sheet.Net.Height, Rounding);
            Assert.True(sheet.Printed.Right <= r.Width + Rounding && sheet.Printed.Bottom <= r.Height + Rounding);
            // A tenth of a micrometre: the slack that lets a board made to fill a sheet fit it.
            Assert.True(sheet.OffsetX >= r.Margin - 1e-7 && sheet.OffsetX + sheet.Printed.Width <= plan.Paper.WidthMetres - r.Margin + 1e-7);
            Assert.True(sheet.OffsetY >= r.Margin - 1e-7 && sheet.OffsetY + sheet.Printed.Height <= plan.Paper.HeightMetres - r.Margin + 1e-7);
        });
    });

    [Fact]
    public void Plan_AnyBoard_TakesNoMoreSheetsThanNeeded() => AnyRequest.Sample(r =>
    {
        SheetPlan plan = SheetPlanner.Plan(r.Width, r.Height, r.Paper, r.Landscape, r.Margin, r.Overlap);

        (double width, double height) = SheetPlanner.Printable(plan.Paper, r.Margin);
        Assert.True(plan.Columns == 1 || ((plan.Columns - 1) * (width - r.Overlap)) + r.Overlap < r.Width);
        Assert.True(plan.Rows == 1 || ((plan.Rows - 1) * (height - r.Overlap)) + r.Overlap < r.Height);
        if (r.Landscape is null)
        {
            foreach (bool landscape in new[] { false, true })
                Assert.True(plan.Sheets.Count <= SheetPlanner.Plan(r.Width, r.Height, r.Paper, landscape, r.Margin, r.Overlap).Sheets.Count);
        }
    });

    [Fact]
    public void Plan_BoardThatFillsTheSheet_IsOneSheetCentred()
    {
        PaperSize a4 = PaperSize.Find("a4")!;
        (double width, double height) = SheetPlanner.Printable(a4, 0.008);

        SheetPlan plan = SheetPlanner.Plan(width, height, a4, landscape: null, 0.008, 0.010);

        Sheet sheet = Assert.Single(plan.Sheets);
        Assert.Equal(0, plan.OverlapMetres);
        Assert.Equal(0.008, sheet.OffsetX, Rounding);
        Assert.Equal(0.008, sheet.OffsetY, Rounding);
        Assert.Equal("A1", sheet.Name);
    }

    [Fact]
    public void Plan_LandscapeAsked_TurnsThePaper()
    {
        SheetPlan plan = SheetPlanner.Plan(1.2, 0.8, PaperSize.Find("A4")!, landscape: true, 0.008, 0.010);

        Assert.Equal((0.297, 0.210), (plan.Paper.WidthMetres, plan.Paper.HeightMetres));
        // (1200 - 10) / (281 - 10) = 4.4 and (800 - 10) / (194 - 10) = 4.3.
        Assert.Equal((5, 5), (plan.Columns, plan.Rows));
        Assert.True(plan.LongestRulerMetres + 0.012 <= plan.Sheets[0].Net.Height);
        Assert.Equal(0.14, plan.LongestRulerMetres, Rounding);
    }

    [Theory]
    [InlineData(0, 0.8, 0.008, 0.01, "both sides must be greater than 0 mm")]
    [InlineData(double.NaN, 0.8, 0.008, 0.01, "both sides must be greater than 0 mm")]
    [InlineData(1, 0.8, 0.105, 0.01, "below 105 mm")]
    [InlineData(1, 0.8, -0.001, 0.01, "0 mm or more")]
    [InlineData(1, 0.8, 0.008, 0.194, "below the 194 mm")]
    [InlineData(40, 40, 0.008, 0.01, "at most 400 are laid out")]
    [InlineData(1e9, 1e9, 0.008, 0.01, "at most 400 are laid out")]
    public void Plan_ImpossibleRequest_IsRefusedWithTheLimit(double width, double height, double margin, double overlap, string part)
    {
        ConfigurationException refusal = Assert.Throws<ConfigurationException>(() => SheetPlanner.Plan(width, height, PaperSize.Find("A4")!, null, margin, overlap));

        Assert.Contains(part, Assert.Single(refusal.Problems), StringComparison.Ordinal);
    }

    [Fact]
    public void Name_RowsBeyondTheAlphabet_StayDistinct()
    {
        var rectangle = new BoardRectangle(0, 0, 1, 1);
        Assert.Equal("Z3", new Sheet(2, 25, rectangle, rectangle, 0, 0).Name);
        Assert.Equal("AA1", new Sheet(0, 26, rectangle, rectangle, 0, 0).Name);
        Assert.Equal(400, Enumerable.Range(0, 400).Select(row => new Sheet(0, row, rectangle, rectangle, 0, 0).Name).Distinct().Count());
    }
}
