namespace BosFlow.Synthesis;

/// <summary>The index of a jet in space, with its exact gradient.</summary>
/// <param name="jet">The jet.</param>
public sealed class JetIndexField(HotJet jet) : IIndexField
{
    // Beyond 5.5 half-widths n - n0 is below 1e-13 of its peak.
    private const double Reach = 5.5;
    private readonly double axisX = jet.Axis.X;
    private readonly double axisY = jet.Axis.Y;

    /// <inheritdoc/>
    public IndexSample At(double x, double y, double z)
    {
        double dx = x - jet.NozzleX;
        double dy = y - jet.NozzleY;
        double dz = z - jet.NozzleZ;
        double s = (dx * axisX) + (dy * axisY);
        double qx = dx - (s * axisX);
        double qy = dy - (s * axisY);
        double a = jet.HalfWidthAt(s);
        double r2 = (qx * qx) + (qy * qy) + (dz * dz);
        double excess = jet.IndexExcess * jet.HalfWidth / a * Math.Exp(-r2 / (a * a));
        double radial = -2 * excess / (a * a);
        double along = excess * jet.Growth / a * ((2 * r2 / (a * a)) - 1);
        return new IndexSample(excess, (radial * qx) + (along * axisX), (radial * qy) + (along * axisY), radial * dz);
    }

    /// <inheritdoc/>
    public FlowStretch StretchAt(double flowX, double flowY)
    {
        (double s, double q) = jet.Split(flowX, flowY);
        double halfWidth = jet.HalfWidthAt(s);
        return Math.Abs(q) > (Reach + 1) * halfWidth
            ? FlowStretch.None
            : new FlowStretch(jet.NozzleZ - (Reach * halfWidth), jet.NozzleZ + (Reach * halfWidth), HasFaces: false);
    }
}
