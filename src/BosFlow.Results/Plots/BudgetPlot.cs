using BosFlow.Density;
using BosFlow.Results.Maps;
using BosFlow.Results.Report;
using SkiaSharp;

namespace BosFlow.Results.Plots;

/// <summary>The uncertainty budget as horizontal bars. The same budget gives the same bytes.</summary>
internal static class BudgetPlot
{
    private const int Width = 1100;
    private const int RowHeight = 44;
    private const int Margin = 30;
    private const float BarHeight = 24;
    private static readonly SKColor Bar = new(0x1f, 0x5f, 0xa8);

    public static byte[] Render(UncertaintyBudget budget)
    {
        float names = Margin + budget.Lines.Max(l => Ink.Width(l.Source, Ink.SmallSize)) + 16;
        // Long names are cut by nothing: they push the bars, up to the middle.
        float left = Math.Min(names, Width * 0.5f);
        double most = budget.Lines.Max(l => l.DensityKgM3);
        float longest = Width - Margin - left - 260;
        return Png.Draw(Width, (2 * Margin) + 34 + (RowHeight * budget.Lines.Count), ink =>
        {
            ink.Text($"Contribution to the standard uncertainty of the density, {Figures.Text(budget.SigmaDensityKgM3)} kg m⁻³ in all", Margin, Margin + 4, Ink.LabelSize, SKTextAlign.Left, Ink.Dark);
            for (int i = 0; i < budget.Lines.Count; i++)
            {
                BudgetLine line = budget.Lines[i];
                float y = Margin + 34 + (RowHeight * (i + 0.5f));
                Names(ink, line.Source, left - 14, y);
                float length = line.IsStated && most > 0 ? (float)(line.DensityKgM3 / most) * longest : 0;
                if (line.IsStated)
                    ink.Fill(new SKRect(left, y - (BarHeight / 2), left + Math.Max(length, 1.5f), y + (BarHeight / 2)), Bar);
                ink.Text(Value(budget, line), left + length + 10, y, Ink.SmallSize, SKTextAlign.Left, line.IsStated ? Ink.Dark : Ink.Soft);
            }

            ink.Line(left, Margin + 34, left, Margin + 34 + (RowHeight * budget.Lines.Count), 1.5f, Ink.Dark);
        });
    }

    private static void Names(Ink ink, string name, float right, float y)
    {
        List<string> lines = Ink.Wrapped(name, Ink.SmallSize, right - Margin);
        for (int i = 0; i < lines.Count; i++)
            ink.Text(lines[i], right, y + ((i - ((lines.Count - 1) / 2f)) * 20), Ink.SmallSize, SKTextAlign.Right, Ink.Dark);
    }

    private static string Value(UncertaintyBudget budget, BudgetLine line) => line.IsStated
        ? $"{Figures.Text(line.DensityKgM3)} kg m⁻³, {BudgetShares.Text(budget, line)}"
        : "not stated";
}
