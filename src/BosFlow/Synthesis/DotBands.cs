using BosFlow.Speckle;

namespace BosFlow.Synthesis;

/// <summary>Shares dots among bands of rows that can be rendered side by side.</summary>
internal static class DotBands
{
    /// <summary>Rows of a band.</summary>
    public const int Rows = 32;

    /// <summary>The dots that reach into each band, in their order.</summary>
    public static List<Dot>[] Sort(ReadOnlySpan<Dot> dots, int width, int height, double reach) => Sort(dots, dot => dot, width, height, reach);

    /// <summary>The same for anything that has its place from a dot.</summary>
    public static List<T>[] Sort<T>(ReadOnlySpan<T> items, Func<T, Dot> place, int width, int height, double reach)
    {
        var bands = new List<T>[(height + Rows - 1) / Rows];
        for (int band = 0; band < bands.Length; band++)
            bands[band] = [];
        foreach (T item in items)
        {
            Dot dot = place(item);
            // Written so that NaN positions fall out.
            if (!(dot.X > -reach - 1 && dot.X < width + reach && dot.Y > -reach - 1 && dot.Y < height + reach))
                continue;
            int first = Math.Max(0, (int)Math.Floor(dot.Y - reach)) / Rows;
            int last = Math.Min(height - 1, (int)Math.Ceiling(dot.Y + reach)) / Rows;
            for (int band = first; band <= last; band++)
                bands[band].Add(item);
        }

        return bands;
    }
}
