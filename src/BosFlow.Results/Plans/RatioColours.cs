using BosFlow.Results.Maps;
using SkiaSharp;

namespace BosFlow.Results.Plans;

/// <summary>Colours for positive numbers that may span decades: equal ratios are equal steps of lightness.</summary>
/// <param name="Low">Smallest number, greater than 0.</param>
/// <param name="High">Largest number, greater than <paramref name="Low"/>.</param>
internal sealed record RatioColours(double Low, double High)
{
    private static readonly double[] Steps = [1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8];

    /// <summary>The range of the numbers that are known; a little room where they are all the same.</summary>
    public static RatioColours Of(IEnumerable<double> values)
    {
        double[] known = [.. values.Where(value => double.IsFinite(value) && value > 0)];
        if (known.Length == 0)
            return new RatioColours(0.1, 10);
        (double low, double high) = (known.Min(), known.Max());
        return high > low * 1.02 ? new RatioColours(low, high) : new RatioColours(low / 1.1, high * 1.1);
    }

    public double Position(double value) => Math.Log(value / Low) / Math.Log(High / Low);

    public SKColor At(double value) => double.IsFinite(value) && value > 0 ? ColourMap.Magnitude.At(Position(value)) : ColourMap.Magnitude.NotMeasured;

    /// <summary>Round numbers within the range, at most as many as wanted.</summary>
    public IReadOnlyList<double> Round(int most)
    {
        foreach (double[] steps in new[] { Steps, [1, 1.5, 2, 3, 5, 7], [1, 2, 5], [1, 3], [1] })
        {
            double[] found = [.. Enumerable.Range(-9, 19).SelectMany(power => steps.Select(step => step * Math.Pow(10, power))).Where(value => value >= Low * 0.9999 && value <= High * 1.0001)];
            if (found.Length <= most && found.Length > 1)
                return found;
        }

        // A range too narrow for round numbers of the decades takes those of an ordinary axis.
        return [.. Ticks.Between(Low, High, Math.Max(most, 2)).Values.Where(value => value > 0)];
    }

    /// <summary>A bar with its numbers.</summary>
    public void DrawBar(Ink ink, SKRect bar, string label)
    {
        for (int i = 0; i < (int)bar.Height; i++)
            ink.Fill(new SKRect(bar.Left, bar.Top + i, bar.Right, bar.Top + i + 1), ColourMap.Magnitude.At(1 - ((i + 0.5) / bar.Height)));
        ink.Box(bar, 1.5f, Ink.Dark);
        float widest = 0;
        foreach (double value in Round(9))
        {
            float y = bar.Bottom - (float)(Position(value) * bar.Height);
            ink.Line(bar.Right, y, bar.Right + 8, y, 1.5f, Ink.Dark);
            ink.Text(PlanFigures.Text(value), bar.Right + 13, y, Ink.SmallSize, SKTextAlign.Left, Ink.Dark);
            widest = Math.Max(widest, Ink.Width(PlanFigures.Text(value), Ink.SmallSize));
        }

        ink.Upright(label, bar.Right + 13 + widest + 22, bar.MidY, Ink.LabelSize, Ink.Dark);
    }
}
