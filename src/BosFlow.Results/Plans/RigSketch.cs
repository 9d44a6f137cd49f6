using BosFlow.Optics;
using BosFlow.Planning;
using BosFlow.Results.Maps;
using BosFlow.Results.Report;
using SkiaSharp;

namespace BosFlow.Results.Plans;

/// <summary>The rig from the side, to scale: lens, view, flow, board, and what is sharp. The same plan gives the same bytes.</summary>
internal static class RigSketch
{
    private const int Width = 1100;
    private const int Left = 90;
    private const int Right = 150;
    private const int Top = 130;
    private const int Bottom = 130;
    private const int LeastHeight = 60;
    private const int MostHeight = 620;
    private static readonly SKColor View = new(0x1f, 0x5f, 0xa8, 0x26);
    private static readonly SKColor ViewEdge = new(0x1f, 0x5f, 0xa8);
    private static readonly SKColor Sharp = new(0xd5, 0xe5, 0xd5);
    private static readonly SKColor Flow = new(0xb4, 0x53, 0x1a);

    public static byte[] Render(PlanResult plan)
    {
        RigGeometry rig = plan.Request.Rig;
        double distance = rig.LensToFlowMetres + rig.FlowToBackgroundMetres;
        double scale = Math.Min((Width - Left - Right) / distance, MostHeight / plan.ViewAtBoard.Height);
        float height = Math.Max(LeastHeight, (float)(plan.ViewAtBoard.Height * scale));
        int canvas = Top + (int)Math.Ceiling(height) + Bottom;
        float axis = Top + (height / 2);
        return Png.Draw(Width, canvas, ink =>
        {
            ink.Text("The rig from the side, to scale", 30, 34, Ink.TitleSize, SKTextAlign.Left, Ink.Dark);
            Depth(ink, plan, X, axis, height);
            Cone(ink, plan, X, axis, scale);
            Plane(ink, X(rig.LensToFlowMetres), axis, (float)(plan.ViewAtFlow.Height * scale), Flow, $"flow, view {Size(plan.ViewAtFlow)}", Top - 62);
            Plane(ink, X(distance), axis, Math.Min((float)((plan.Request.Board.HeightMetres ?? plan.ViewAtBoard.Height) * scale), height + 60), Ink.Dark, $"board, view {Size(plan.ViewAtBoard)}", Top - 32);
            ink.Fill(new SKRect(Left - 34, axis - 16, Left - 8, axis + 16), Ink.Soft);
            ink.Fill(new SKRect(Left - 8, axis - 10, Left, axis + 10), Ink.Dark);
            float below = axis + (height / 2) + 34;
            Arrow(ink, X(0), X(rig.LensToFlowMetres), below, $"{PlanFigures.Text(rig.LensToFlowMetres * 1e3)} mm");
            Arrow(ink, X(rig.LensToFlowMetres), X(distance), below, $"{PlanFigures.Text(rig.FlowToBackgroundMetres * 1e3)} mm");
            ink.Text(Foot(plan), 30, canvas - 26, Ink.SmallSize, SKTextAlign.Left, Ink.Soft);
        });

        float X(double metres) => Left + (float)(metres * scale);
    }

    private static void Depth(Ink ink, PlanResult plan, Func<double, float> x, float axis, float height)
    {
        float near = Math.Clamp(x(plan.DepthOfField.Near), Left, Width - 20);
        float far = double.IsInfinity(plan.DepthOfField.Far) ? Width - 20 : Math.Clamp(x(plan.DepthOfField.Far), Left, Width - 20);
        ink.Fill(new SKRect(near, axis - (height / 2) - 6, Math.Max(far, near + 2), axis + (height / 2) + 6), Sharp);
    }

    private static void Cone(Ink ink, PlanResult plan, Func<double, float> x, float axis, double scale)
    {
        float board = x(plan.Request.Rig.LensToFlowMetres + plan.Request.Rig.FlowToBackgroundMetres);
        float half = (float)(plan.ViewAtBoard.Height * scale / 2);
        using var path = new SKPath();
        path.MoveTo(x(0), axis);
        path.LineTo(board, axis - half);
        path.LineTo(board, axis + half);
        path.Close();
        using var paint = new SKPaint { Color = View, IsAntialias = true };
        ink.Canvas.DrawPath(path, paint);
        ink.Line(x(0), axis, board, axis - half, 1.5f, ViewEdge);
        ink.Line(x(0), axis, board, axis + half, 1.5f, ViewEdge);
    }

    private static void Plane(Ink ink, float x, float axis, float height, SKColor colour, string label, float y)
    {
        float half = Math.Max(height / 2, 6);
        ink.Line(x, axis - half, x, axis + half, 5, colour);
        ink.Line(x, axis - half, x, y + 12, 1, Ink.Soft);
        float width = Ink.Width(label, Ink.SmallSize);
        ink.Text(label, Math.Clamp(x, 30 + (width / 2), Width - 20 - (width / 2)), y, Ink.SmallSize, SKTextAlign.Center, colour);
    }

    private static void Arrow(Ink ink, float from, float to, float y, string label)
    {
        ink.Line(from, y, to, y, 1.5f, Ink.Dark);
        ink.Line(from, y - 8, from, y + 8, 1.5f, Ink.Dark);
        ink.Line(to, y - 8, to, y + 8, 1.5f, Ink.Dark);
        ink.Text(label, (from + to) / 2, y + 20, Ink.SmallSize, SKTextAlign.Center, Ink.Dark);
    }

    private static string Size((double Width, double Height) metres) =>
        $"{PlanFigures.Text(metres.Width * 1e3)} x {PlanFigures.Text(metres.Height * 1e3)} mm";

    private static string Foot(PlanResult plan) =>
        $"Lens {PlanFigures.Given((plan.Request.Rig.FocalLengthMetres ?? double.NaN) * 1e3)} mm at f/{PlanFigures.Given(plan.Request.Rig.FNumber ?? double.NaN)}. "
        + $"Green: sharp to 1 px, {PlanFigures.Text(plan.DepthOfField.Near * 1e3)} to {PlanFigures.Text(plan.DepthOfField.Far * 1e3)} mm. At the flow a ray bundle is {Figures.Text(plan.FlowBlurMetres * 1e3)} mm wide.";
}
