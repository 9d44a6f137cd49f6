using BosFlow.Camera;
using BosFlow.Density;
using BosFlow.Footage;

namespace BosFlow.Pipeline;

/// <summary>What a case draws into the picture as filmed, in the coordinates of the ideal picture.</summary>
internal static class IdealPicture
{
    // A straight edge in the picture is a curve in the ideal one: in pieces this long it stays within a hundredth of a pixel at any lens that is not broken.
    private const double PiecePixels = 8;

    /// <summary>A mask; what the picture does not show takes no part.</summary>
    public static PixelMask Of(PixelMask mask, LensModel lens)
    {
        byte[] values = new byte[mask.Values.Length];
        for (int y = 0; y < mask.Height; y++)
        {
            for (int x = 0; x < mask.Width; x++)
            {
                (double column, double row) = lens.ToPicture(x, y);
                bool seen = column >= -0.5 && row >= -0.5 && column < mask.Width - 0.5 && row < mask.Height - 0.5;
                values[(y * mask.Width) + x] = seen && mask[(int)Math.Round(column), (int)Math.Round(row)] ? (byte)1 : (byte)0;
            }
        }

        return new PixelMask(mask.Width, mask.Height, values);
    }

    /// <summary>A picture to look at, never to measure: bilinear, NaN where nothing was filmed.</summary>
    public static GrayImage Of(GrayImage picture, LensModel lens)
    {
        float[] levels = new float[picture.Pixels.Length];
        for (int y = 0; y < picture.Height; y++)
        {
            for (int x = 0; x < picture.Width; x++)
            {
                (double column, double row) = lens.ToPicture(x, y);
                levels[(y * picture.Width) + x] = Level(picture, column, row);
            }
        }

        return new GrayImage(picture.Width, picture.Height, levels, picture.WhiteLevel);
    }

    /// <summary>Axis and polygons of the flow.</summary>
    /// <exception cref="InputDataException">The lens shows nothing at one of their places.</exception>
    public static FlowSettings Of(FlowSettings flow, LensModel lens) => flow with
    {
        Axis = flow.Axis is { } axis ? Of(axis, lens) : null,
        AmbientRegions = [.. flow.AmbientRegions.Select(polygon => new PixelPolygon([.. Pieces(polygon).Select(corner => Checked(lens.ToIdeal(corner.X, corner.Y), corner.X, corner.Y))]))],
    };

    private static AxisLine Of(AxisLine axis, LensModel lens)
    {
        (double x1, double y1) = Checked(lens.ToIdeal(axis.X1, axis.Y1), axis.X1, axis.Y1);
        (double x2, double y2) = Checked(lens.ToIdeal(axis.X2, axis.Y2), axis.X2, axis.Y2);
        return new AxisLine(x1, y1, x2, y2);
    }

    private static IEnumerable<(double X, double Y)> Pieces(PixelPolygon polygon)
    {
        for (int i = 0; i < polygon.Corners.Count; i++)
        {
            (double x0, double y0) = polygon.Corners[i];
            (double x1, double y1) = polygon.Corners[(i + 1) % polygon.Corners.Count];
            int pieces = Math.Max(1, (int)Math.Ceiling(double.Hypot(x1 - x0, y1 - y0) / PiecePixels));
            for (int piece = 0; piece < pieces; piece++)
                yield return (x0 + ((x1 - x0) * piece / pieces), y0 + ((y1 - y0) * piece / pieces));
        }
    }

    private static (double X, double Y) Checked((double X, double Y) ideal, double x, double y) => double.IsFinite(ideal.X)
        ? ideal
        : throw new InputDataException(FormattableString.Invariant($"The lens of the case shows nothing at ({x:0.#}, {y:0.#}) px, where the flow is drawn in the case: move that point inward, or calibrate the lens with pictures that reach there."));

    private static float Level(GrayImage picture, double column, double row)
    {
        if (!(column >= 0 && row >= 0 && column <= picture.Width - 1 && row <= picture.Height - 1))
            return float.NaN;
        int left = Math.Min((int)column, Math.Max(0, picture.Width - 2));
        int top = Math.Min((int)row, Math.Max(0, picture.Height - 2));
        int right = Math.Min(left + 1, picture.Width - 1);
        int bottom = Math.Min(top + 1, picture.Height - 1);
        float across = (float)(column - left);
        float above = picture[left, top] + (across * (picture[right, top] - picture[left, top]));
        float below = picture[left, bottom] + (across * (picture[right, bottom] - picture[left, bottom]));
        return above + ((float)(row - top) * (below - above));
    }
}
