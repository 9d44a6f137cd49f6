using BosFlow.Planning;

namespace BosFlow.Results.Plans;

/// <summary>A quantity that is varied, with its values.</summary>
/// <param name="Quantity">What it is.</param>
/// <param name="Name">Its name as it is typed.</param>
/// <param name="Label">Its name in words.</param>
/// <param name="Unit">Its unit as people read it; empty for a pure number.</param>
/// <param name="UnitsPerSi">Value in that unit for one of the SI unit of <see cref="PlanQuantity"/>.</param>
/// <param name="Values">The values, ascending, in the SI unit.</param>
public sealed record SweepAxis(PlanQuantity Quantity, string Name, string Label, string Unit, double UnitsPerSi, IReadOnlyList<double> Values)
{
    /// <summary>Name in words with unit, for axes and headings.</summary>
    public string Title => Quantity == PlanQuantity.Split ? $"{Label} (flow to board / lens to board)" : Unit.Length == 0 ? Label : $"{Label} ({Unit})";

    /// <summary>A value as it is shown.</summary>
    /// <param name="value">The value in the SI unit.</param>
    public string Text(double value) => PlanFigures.Text(value * UnitsPerSi);

    /// <summary>The value of a plan, in the shown unit; null where it has none.</summary>
    /// <param name="plan">The plan.</param>
    public double? Present(PlanResult plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        Optics.RigGeometry rig = plan.Request.Rig;
        double? value = Quantity switch
        {
            PlanQuantity.Split => rig.FlowToBackgroundMetres / (rig.LensToFlowMetres + rig.FlowToBackgroundMetres),
            PlanQuantity.LensToFlow => rig.LensToFlowMetres,
            PlanQuantity.FlowToBackground => rig.FlowToBackgroundMetres,
            PlanQuantity.FNumber => rig.FNumber,
            PlanQuantity.FocalLength => rig.FocalLengthMetres,
            PlanQuantity.Dot => plan.DotMetres,
            PlanQuantity.Exposure => plan.Request.Camera.ExposureSeconds,
            PlanQuantity.Window => plan.Request.Displacement.WindowPixels,
            PlanQuantity.Noise => plan.Request.Camera.NoiseOfFullScale,
            _ => throw new ArgumentOutOfRangeException(nameof(plan)),
        };
        return value * UnitsPerSi;
    }
}
