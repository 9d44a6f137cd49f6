using BosFlow.Planning;
using BosFlow.Results.Maps;
using SkiaSharp;

namespace BosFlow.Results.Plans;

/// <summary>The best rigs as points: ratio over resolution, coloured by the width of the board. The same rigs give the same bytes.</summary>
internal static class OptimumPlot
{
    private const int Width = 1100;
    private const int Left = 130;
    private const int Top = 84;
    private const int PlotWidth = 770;
    private const int PlotHeight = 520;
    private const double Room = 0.06;

    public static byte[] Render(PlanResult plan, IReadOnlyList<PlanCandidate> front, PlanCandidate best)
    {
        var plot = new SKRect(Left, Top, Left + PlotWidth, Top + PlotHeight);
        double nowX = plan.HalfResponseWavelengthMetres * 1e3;
        double nowY = SweptSignal.Ratio(plan);
        (double Low, double High) across = Span([.. front.Select(candidate => candidate.ResolutionMetres * 1e3), nowX]);
        (double Low, double High) up = Span([.. front.Select(candidate => candidate.SignalToNoise), nowY]);
        RatioColours colours = RatioColours.Of(front.Select(candidate => candidate.BoardWidthMetres * 1e3));
        return Png.Draw(Width, Top + PlotHeight + 100, ink =>
        {
            ink.Text("The best rigs within the limits", 30, 38, Ink.TitleSize, SKTextAlign.Left, Ink.Dark);
            Axes(ink, plot, across, up, X, Y);
            foreach (PlanCandidate candidate in front)
                Disc(ink, X(candidate.ResolutionMetres * 1e3), Y(candidate.SignalToNoise), 8, colours.At(candidate.BoardWidthMetres * 1e3));
            Ring(ink, X(best.ResolutionMetres * 1e3), Y(best.SignalToNoise));
            Name(ink, "best", X(best.ResolutionMetres * 1e3), Y(best.SignalToNoise), plot);
            Cross(ink, X(nowX), Y(nowY));
            Name(ink, "the plan as it is", X(nowX), Y(nowY), plot);
            colours.DrawBar(ink, new SKRect(plot.Right + 34, plot.Top, plot.Right + 60, plot.Bottom), "width of the board (mm)");
        });

        float X(double value) => plot.Left + (float)((value - across.Low) / (across.High - across.Low) * PlotWidth);
        float Y(double value) => plot.Bottom - (float)((value - up.Low) / (up.High - up.Low) * PlotHeight);
    }

    private static void Axes(Ink ink, SKRect plot, (double Low, double High) across, (double Low, double High) up, Func<double, float> x, Func<double, float> y)
    {
        var grid = new SKColor(0xe3, 0xe6, 0xe8);
        Ticks columns = Ticks.Between(across.Low, across.High, 8);
        foreach (double tick in columns.Values)
        {
            ink.Line(x(tick), plot.Top, x(tick), plot.Bottom, 1, grid);
            ink.Line(x(tick), plot.Bottom, x(tick), plot.Bottom + 8, 1.5f, Ink.Dark);
            ink.Text(columns.Label(tick), x(tick), plot.Bottom + 24, Ink.SmallSize, SKTextAlign.Center, Ink.Dark);
        }

        Ticks rows = Ticks.Between(up.Low, up.High, 7);
        foreach (double tick in rows.Values)
        {
            ink.Line(plot.Left, y(tick), plot.Right, y(tick), 1, grid);
            ink.Line(plot.Left - 8, y(tick), plot.Left, y(tick), 1.5f, Ink.Dark);
            ink.Text(rows.Label(tick), plot.Left - 13, y(tick), Ink.SmallSize, SKTextAlign.Right, Ink.Dark);
        }

        ink.Box(plot, 1.5f, Ink.Dark);
        ink.Text("wavelength of which half is left (mm)", plot.MidX, plot.Bottom + 58, Ink.LabelSize, SKTextAlign.Center, Ink.Dark);
        ink.Upright("ratio of signal to noise, one frame", plot.Left - 98, plot.MidY, Ink.LabelSize, Ink.Dark);
    }

    private static (double Low, double High) Span(double[] values)
    {
        (double low, double high) = (values.Min(), values.Max());
        double room = high > low ? (high - low) * Room : Math.Max(Math.Abs(high) * 0.1, 0.001);
        return (low - room, high + room);
    }

    private static void Disc(Ink ink, float x, float y, float radius, SKColor colour)
    {
        using var fill = new SKPaint { Color = colour, IsAntialias = true };
        using var edge = new SKPaint { Color = Ink.Dark, IsStroke = true, StrokeWidth = 1.5f, IsAntialias = true };
        ink.Canvas.DrawCircle(x, y, radius, fill);
        ink.Canvas.DrawCircle(x, y, radius, edge);
    }

    private static void Ring(Ink ink, float x, float y)
    {
        using var edge = new SKPaint { Color = Ink.Dark, IsStroke = true, StrokeWidth = 3, IsAntialias = true };
        ink.Canvas.DrawCircle(x, y, 15, edge);
    }

    private static void Cross(Ink ink, float x, float y)
    {
        ink.Line(x - 10, y - 10, x + 10, y + 10, 3, Ink.Dark);
        ink.Line(x - 10, y + 10, x + 10, y - 10, 3, Ink.Dark);
    }

    private static void Name(Ink ink, string words, float x, float y, SKRect plot)
    {
        float width = Ink.Width(words, Ink.SmallSize);
        bool toTheRight = x + 22 + width < plot.Right;
        ink.Text(words, toTheRight ? x + 22 : x - 22, y - 18, Ink.SmallSize, toTheRight ? SKTextAlign.Left : SKTextAlign.Right, Ink.Dark);
    }
}
