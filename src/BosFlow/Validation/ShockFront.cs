using BosFlow.Synthesis;

namespace BosFlow.Validation;

/// <summary>An oblique front over which the displacement jumps along a smooth cubic from 0 to its whole.</summary>
/// <param name="X">Column of a point of the front, px.</param>
/// <param name="Y">Row of it, px.</param>
/// <param name="JumpU">Jump to the right, px.</param>
/// <param name="JumpV">Jump down, px.</param>
/// <param name="Width">Width across the front, px.</param>
internal sealed record ShockFront(double X, double Y, double JumpU, double JumpV, double Width) : IFlowField
{
    /// <summary>Distance from the front's middle, px; the jump is along the normal.</summary>
    public double Distance(double x, double y) => (((x - X) * JumpU) + ((y - Y) * JumpV)) / double.Hypot(JumpU, JumpV);

    public FlowSample At(double x, double y)
    {
        double t = Math.Clamp(0.5 + (Distance(x, y) / Width), 0, 1);
        double part = t * t * (3 - (2 * t));
        return FlowSample.Prescribed(part * JumpU, part * JumpV);
    }
}
