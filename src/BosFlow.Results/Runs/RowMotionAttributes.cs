using BosFlow.Registration;
using BosFlow.Results.NetCdf;

namespace BosFlow.Results.Runs;

/// <summary>The motion of a frame's rows as attributes of its file, and back.</summary>
internal static class RowMotionAttributes
{
    private const string Layout = "row_motion_layout";
    private const string OfU = "row_motion_u_px";
    private const string OfV = "row_motion_v_px";
    private const string OfReferenceU = "row_motion_reference_u_px";
    private const string OfReferenceV = "row_motion_reference_v_px";

    /// <summary>The attributes; none for a global shutter.</summary>
    public static IEnumerable<NetCdfAttribute> Of(RowMotion? motion)
    {
        if (motion is null)
            yield break;
        RowModel model = motion.Model;
        yield return new(Layout, new[] { model.Width, model.Shifts.Height, model.Shifts.Intervals, model.TurnCount });
        yield return new(OfU, motion.U.ToArray());
        yield return new(OfV, motion.V.ToArray());
        if (motion.Reference is { } reference)
        {
            yield return new(OfReferenceU, reference.U.ToArray());
            yield return new(OfReferenceV, reference.V.ToArray());
        }

        yield return new(
            "row_motion_comment",
            "layout: picture width and height (px), intervals n, number of coefficients of stretch and turn. u: n + 3 coefficients of uniform cubic B-splines over the rows, then the stretch's; v the same with the turn's; stretch and turn count by (2 x - width + 1) / width. Behind a lens, x is that of the ideal picture and rows are those of the sensor, that is of the picture as filmed. reference_u and _v: the mean of the flow-off frames against the reference, of the same layout, S; with M the motion of u and v, the displacement is M(y + t) - S(y + t) + S(y), t the turn at (x, y) divided by 1 + d(shift of v)/dy. This motion was taken out of u and v; background_motion is the motion of the whole frame nearest to it");
    }

    /// <summary>The motion; null where the file has none.</summary>
    /// <exception cref="InputDataException">The numbers do not fit each other.</exception>
    public static RowMotion? Read(NetCdfContent content)
    {
        if (content.Attribute(Layout) is not int[] layout)
            return null;
        try
        {
            RowModel model = RowModel.Known(layout[0], layout[1], layout[2], layout[3]);
            RowMotion? reference = content.Attribute(OfReferenceU) is double[] u ? new RowMotion(model, u, content.Required<double[]>(OfReferenceV)) : null;
            return new RowMotion(model, content.Required<double[]>(OfU), content.Required<double[]>(OfV), reference);
        }
        catch (Exception e) when (e is ArgumentException or IndexOutOfRangeException)
        {
            throw new InputDataException("The file's motion of rows has numbers that do not fit each other; it was changed or written by another version: run the case again in a new folder.", e);
        }
    }
}
