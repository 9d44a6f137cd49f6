using BosFlow.Synthesis;

namespace BosFlow.Validation;

/// <summary>A column of lighter gas that deflects strongly to both sides: u = peak (x / s) exp((1 - x^2 / s^2) / 2), largest at a distance s from the axis; the strain on the axis is sqrt(e) peak / s.</summary>
/// <param name="Axis">Column of the axis, px.</param>
/// <param name="Peak">Largest displacement, px.</param>
/// <param name="Strain">Strain on the axis, px/px.</param>
internal sealed record StrongPlume(double Axis, double Peak, double Strain) : IFlowField
{
    public FlowSample At(double x, double y)
    {
        double place = (x - Axis) * Strain / (Math.Sqrt(Math.E) * Peak);
        return FlowSample.Prescribed(Peak * place * Math.Exp((1 - (place * place)) / 2), 0);
    }
}
