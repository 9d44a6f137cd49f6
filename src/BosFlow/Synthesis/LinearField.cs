namespace BosFlow.Synthesis;

/// <summary>A displacement that is linear in position: a uniform shift, a strain, a rotation, or all together.</summary>
/// <param name="ShiftU">Displacement to the right at the centre, px.</param>
/// <param name="ShiftV">Displacement down at the centre, px.</param>
/// <param name="CentreX">x of the centre, px.</param>
/// <param name="CentreY">y of the centre, px.</param>
/// <param name="DuDx">Change of u along x, px/px.</param>
/// <param name="DuDy">Change of u along y, px/px.</param>
/// <param name="DvDx">Change of v along x, px/px.</param>
/// <param name="DvDy">Change of v along y, px/px.</param>
public sealed record LinearField(double ShiftU, double ShiftV, double CentreX, double CentreY, double DuDx, double DuDy, double DvDx, double DvDy) : IFlowField
{
    /// <summary>The same displacement everywhere.</summary>
    /// <param name="u">Displacement to the right, px.</param>
    /// <param name="v">Displacement down, px.</param>
    public static LinearField Uniform(double u, double v) => new(u, v, 0, 0, 0, 0, 0, 0);

    /// <inheritdoc/>
    public FlowSample At(double x, double y)
    {
        double dx = x - CentreX;
        double dy = y - CentreY;
        return FlowSample.Prescribed(ShiftU + (DuDx * dx) + (DuDy * dy), ShiftV + (DvDx * dx) + (DvDy * dy));
    }
}
