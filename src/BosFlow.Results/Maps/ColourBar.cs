using SkiaSharp;

namespace BosFlow.Results.Maps;

/// <summary>The bar that says which colour is which number.</summary>
internal static class ColourBar
{
    public const int BarWidth = 26;

    public static void Draw(Ink ink, MapLayout layout, MapSpecification map, ColourRange range)
    {
        int left = layout.BarLeft;
        int top = layout.Plot.Top;
        int height = layout.Plot.Height;
        for (int i = 0; i < height; i++)
            ink.Fill(new SKRect(left, top + i, left + BarWidth, top + i + 1), map.Colours.At(1 - ((i + 0.5) / height)));
        ink.Box(new SKRect(left - 0.5f, top - 0.5f, left + BarWidth + 0.5f, top + height + 0.5f), 1.5f, Ink.Dark);
        int exponent = UnitText.Exponent(Math.Max(Math.Abs(range.Low), Math.Abs(range.High)));
        double factor = Math.Pow(10, -exponent);
        Ticks ticks = Ticks.Between(range.Low * factor, range.High * factor, Math.Clamp(height / 60, 3, 9));
        float widest = 0;
        foreach (double tick in ticks.Values)
        {
            float y = top + (float)((1 - range.Position(tick / factor)) * height);
            ink.Line(left + BarWidth, y, left + BarWidth + 8, y, 1.5f, Ink.Dark);
            ink.Text(ticks.Label(tick), left + BarWidth + 13, y, Ink.SmallSize, SKTextAlign.Left, Ink.Dark);
            widest = Math.Max(widest, Ink.Width(ticks.Label(tick), Ink.SmallSize));
        }

        string unit = UnitText.WithExponent(map.Unit, exponent);
        string label = unit.Length == 0 ? map.Symbol : $"{map.Symbol} ({unit})";
        ink.Upright(label, left + BarWidth + 13 + widest + 22, layout.Plot.MidY, Ink.LabelSize, Ink.Dark);
    }
}
