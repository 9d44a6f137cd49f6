namespace BosFlow.Inspection;

/// <summary>Divides the picture among the dots: each pixel belongs to the dot whose edge is nearest.</summary>
/// <remarks>
/// Blur carries light over the border of two cells both ways alike, so that the darkness summed over a dot's cell is that of the dot
/// to first order. A cell ends where the blur does.
/// </remarks>
internal sealed class DotCells
{
    /// <summary>No dot is near.</summary>
    public const int None = -1;

    private readonly int[] owner;
    private readonly float[] distance;

    /// <param name="dots">The dots.</param>
    /// <param name="width">Width of the picture, px.</param>
    /// <param name="height">Height of the picture, px.</param>
    /// <param name="reach">How far beyond a dot's edge its cell goes, px.</param>
    public DotCells(IReadOnlyList<SeenDot> dots, int width, int height, double reach)
    {
        owner = new int[width * height];
        distance = new float[width * height];
        Array.Fill(owner, None);
        Array.Fill(distance, float.PositiveInfinity);
        for (int i = 0; i < dots.Count; i++)
        {
            SeenDot dot = dots[i];
            double far = dot.Radius + reach;
            int left = Math.Max(0, (int)Math.Ceiling(dot.X - far));
            int right = Math.Min(width - 1, (int)(dot.X + far));
            int top = Math.Max(0, (int)Math.Ceiling(dot.Y - far));
            int bottom = Math.Min(height - 1, (int)(dot.Y + far));
            for (int y = top; y <= bottom; y++)
            {
                for (int x = left; x <= right; x++)
                {
                    double dx = x - dot.X;
                    double dy = y - dot.Y;
                    double edge = Math.Sqrt((dx * dx) + (dy * dy)) - dot.Radius;
                    int at = (y * width) + x;
                    if (edge > reach || edge >= distance[at])
                        continue;
                    distance[at] = (float)edge;
                    owner[at] = i;
                }
            }
        }
    }

    /// <summary>Which dot a pixel belongs to, by its place in the list; <see cref="None"/> for none.</summary>
    /// <param name="index">Number of the pixel.</param>
    public int Owner(int index) => owner[index];

    /// <summary>Distance of a pixel from the nearest edge of a dot, px, negative inside; infinite beyond all cells.</summary>
    /// <param name="index">Number of the pixel.</param>
    public float Distance(int index) => distance[index];
}
