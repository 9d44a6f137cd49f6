using BosFlow.Displacement;
using BosFlow.Results.Maps;
using SkiaSharp;

namespace BosFlow.Results.Tests.Maps;

public sealed class MapRendererTests
{
    private static readonly NodeGrid Grid = new(19.5, 19.5, 20, 15, 11);
    private static readonly ColourRange Range = new(-3, 3, "given");

    [Fact]
    public void Render_EachCell_HasTheColourThatTheBarShowsForItsValue()
    {
        MapSpecification map = Map(i => ((i % 61) / 10f) - 3);
        MapLayout layout = MapRenderer.Layout(map, Range);
        using SKBitmap picture = SKBitmap.Decode(MapRenderer.Render(map));

        for (int node = 0; node < Grid.Count; node += 7)
        {
            SKColor cell = picture.GetPixel((int)layout.X(Grid.X(node % Grid.Columns)), (int)layout.Y(Grid.Y(node / Grid.Columns)));
            int barY = (int)(layout.Plot.Top + ((1 - Range.Position(map.Values[node])) * (layout.Plot.Height - 1)));
            SKColor bar = picture.GetPixel(layout.BarLeft + (ColourBar.BarWidth / 2), barY);

            // The bar has one colour a row of the picture: half a row of six units of range.
            Assert.InRange(Lab(cell).DistanceTo(Lab(bar)), 0, 1.0);
        }
    }

    [Fact]
    public void Render_MaskedAndMissingPlaces_NeverHaveAColourOfTheMap()
    {
        MapSpecification map = Map(i => i == 80 ? float.NaN : 1);
        map.Cells[20] = CellState.Masked;
        MapLayout layout = MapRenderer.Layout(map, Range);
        using SKBitmap picture = SKBitmap.Decode(MapRenderer.Render(map));

        Assert.Equal(map.Colours.NotMeasured, picture.GetPixel((int)layout.X(Grid.X(80 % 15)), (int)layout.Y(Grid.Y(80 / 15))));
        HashSet<SKColor> seen = [];
        for (int d = -8; d <= 8; d++)
            seen.Add(picture.GetPixel((int)layout.X(Grid.X(20 % 15)) + d, (int)layout.Y(Grid.Y(20 / 15))));
        Assert.Equal(new HashSet<SKColor> { map.Colours.Hatch, map.Colours.Mask }, seen);
    }

    [Fact]
    public void Render_ReplacedVector_IsMarkedWithADot()
    {
        MapSpecification map = Map(_ => 1);
        map.Cells[33] = CellState.Marked;
        MapLayout layout = MapRenderer.Layout(map, Range);
        using SKBitmap picture = SKBitmap.Decode(MapRenderer.Render(map));

        Assert.Equal(Ink.Dark, picture.GetPixel((int)layout.X(Grid.X(33 % 15)), (int)layout.Y(Grid.Y(33 / 15))));
    }

    [Fact]
    public void Render_OnAMachineWithoutFonts_StillHasItsText()
    {
        // The typeface is the program's own; the title's ink proves that it is drawn.
        using SKBitmap with = SKBitmap.Decode(MapRenderer.Render(Map(_ => 0)));
        using SKBitmap without = SKBitmap.Decode(MapRenderer.Render(Map(_ => 0) with { Title = " " }));

        Assert.Equal("DejaVu Sans", BosFlow.Results.Fonts.Typeface.Sans.FamilyName);
        Assert.InRange(DarkPixels(with) - DarkPixels(without), 500, 20000);
    }

    [Fact]
    public void Render_ValuesThatDoNotFitTheGrid_AreRefused() =>
        Assert.Throws<ArgumentException>(() => MapRenderer.Render(Map(_ => 0) with { Values = new float[3] }));

    [Theory]
    [InlineData(0, 2, 5, 2)]
    [InlineData(90, 2, 5, -5)]
    [InlineData(180, 2, 5, -2)]
    [InlineData(45, 1, -1, 1.41421356f)]
    public void KnifeEdge_Component_IsCounterClockwiseAsSeen(double angle, float right, float down, float expected) =>
        Assert.Equal(expected, KnifeEdgeView.Component([right], [down], angle)[0], 1e-5f);

    private static MapSpecification Map(Func<int, float> value) => new()
    {
        Title = "A quantity in words",
        Symbol = "q",
        Unit = "kg m-3",
        Grid = Grid,
        Values = [.. Enumerable.Range(0, Grid.Count).Select(value)],
        Cells = new CellState[Grid.Count],
        Width = 320,
        Height = 240,
        Colours = ColourMap.Signed,
        Range = Range,
        FlowMillimetresPerPixel = 0.2,
    };

    private static CieLab Lab(SKColor colour) => CieLab.OfSrgb(colour.Red, colour.Green, colour.Blue);

    private static int DarkPixels(SKBitmap picture)
    {
        int count = 0;
        for (int y = 0; y < 60; y++)
        {
            for (int x = 0; x < picture.Width; x++)
                count += picture.GetPixel(x, y).Red < 100 ? 1 : 0;
        }

        return count;
    }
}
