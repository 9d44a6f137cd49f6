using BosFlow.Planning;
using BosFlow.Results.Maps;
using SkiaSharp;

namespace BosFlow.Results.Plans;

/// <summary>A ratio over two quantities, a cell a rig, nothing smoothed, with labelled lines. The same plans give the same bytes.</summary>
internal static class SweepMap
{
    private const int Width = 1100;
    private const int Left = 130;
    private const int PlotWidth = 770;
    private const int PlotHeight = 560;
    private const int MostLabels = 13;
    private const int MostLines = 8;
    private static readonly SKColor Rim = new(255, 255, 255, 210);

    public static byte[] Render(string title, PlanResult plan, SweepAxis across, SweepAxis down, double[][] values)
    {
        List<string> lines = Ink.Wrapped(title, Ink.TitleSize, Width - 60);
        int top = 44 + (lines.Count * 34);
        var plot = new SKRect(Left, top, Left + PlotWidth, top + PlotHeight);
        RatioColours colours = RatioColours.Of(values.SelectMany(row => row));
        float cellWidth = (float)PlotWidth / across.Values.Count;
        float cellHeight = (float)PlotHeight / down.Values.Count;
        return Png.Draw(Width, top + PlotHeight + 100, ink =>
        {
            for (int i = 0; i < lines.Count; i++)
                ink.Text(lines[i], 30, 34 + (i * 34), Ink.TitleSize, SKTextAlign.Left, Ink.Dark);
            for (int row = 0; row < values.Length; row++)
            {
                for (int column = 0; column < values[row].Length; column++)
                    ink.Fill(new SKRect(X(column - 0.5), Y(row + 0.5), X(column + 0.5), Y(row - 0.5)), colours.At(values[row][column]));
            }

            foreach (double level in colours.Round(MostLines))
                Contour(ink, values, level, X, Y);
            ink.Box(plot, 1.5f, Ink.Dark);
            Labels(ink, across, down, plot, X, Y);
            if (Place(across, plan) is double x && Place(down, plan) is double y)
                Mark(ink, X(x), Y(y));
            colours.DrawBar(ink, new SKRect(plot.Right + 34, plot.Top, plot.Right + 60, plot.Bottom), "ratio of signal to noise, one frame");
        });

        float X(double column) => plot.Left + (float)((column + 0.5) * cellWidth);
        float Y(double row) => plot.Bottom - (float)((row + 0.5) * cellHeight);
    }

    private static void Contour(Ink ink, double[][] values, double level, Func<double, float> x, Func<double, float> y)
    {
        (double X1, double Y1, double X2, double Y2)[] pieces = [.. ContourLines.Of(values, level)];
        foreach ((float width, SKColor colour) in new[] { (3.5f, Rim), (1.5f, Ink.Dark) })
        {
            foreach ((double x1, double y1, double x2, double y2) in pieces)
                ink.Line(x(x1), y(y1), x(x2), y(y2), width, colour);
        }

        if (pieces.Length == 0)
            return;
        (double X1, double Y1, double X2, double Y2) place = pieces[pieces.Length / 2];
        string label = PlanFigures.Text(level);
        float half = (Ink.Width(label, Ink.SmallSize) / 2) + 4;
        float atX = x((place.X1 + place.X2) / 2);
        float atY = y((place.Y1 + place.Y2) / 2);
        ink.Fill(new SKRect(atX - half, atY - 11, atX + half, atY + 11), Rim);
        ink.Text(label, atX, atY, Ink.SmallSize, SKTextAlign.Center, Ink.Dark);
    }

    private static void Labels(Ink ink, SweepAxis across, SweepAxis down, SKRect plot, Func<double, float> x, Func<double, float> y)
    {
        int everyColumn = (across.Values.Count + MostLabels - 1) / MostLabels;
        for (int column = 0; column < across.Values.Count; column += everyColumn)
        {
            ink.Line(x(column), plot.Bottom, x(column), plot.Bottom + 8, 1.5f, Ink.Dark);
            ink.Text(across.Text(across.Values[column]), x(column), plot.Bottom + 24, Ink.SmallSize, SKTextAlign.Center, Ink.Dark);
        }

        int everyRow = (down.Values.Count + MostLabels - 1) / MostLabels;
        for (int row = 0; row < down.Values.Count; row += everyRow)
        {
            ink.Line(plot.Left - 8, y(row), plot.Left, y(row), 1.5f, Ink.Dark);
            ink.Text(down.Text(down.Values[row]), plot.Left - 13, y(row), Ink.SmallSize, SKTextAlign.Right, Ink.Dark);
        }

        ink.Text(across.Title, plot.MidX, plot.Bottom + 58, Ink.LabelSize, SKTextAlign.Center, Ink.Dark);
        ink.Upright(down.Title, plot.Left - 98, plot.MidY, Ink.LabelSize, Ink.Dark);
    }

    /// <summary>Where the plan's own value lies among the columns or rows; null outside of them.</summary>
    private static double? Place(SweepAxis axis, PlanResult plan)
    {
        if (axis.Present(plan) is not double present)
            return null;
        double[] values = [.. axis.Values.Select(value => value * axis.UnitsPerSi)];
        for (int i = 0; i + 1 < values.Length; i++)
        {
            if (present >= values[i] && present <= values[i + 1])
                return i + ((present - values[i]) / (values[i + 1] - values[i]));
        }

        return null;
    }

    private static void Mark(Ink ink, float x, float y)
    {
        foreach ((float width, SKColor colour) in new[] { (7f, SKColors.White), (3f, Ink.Dark) })
        {
            ink.Line(x - 11, y - 11, x + 11, y + 11, width, colour);
            ink.Line(x - 11, y + 11, x + 11, y - 11, width, colour);
        }
    }
}
