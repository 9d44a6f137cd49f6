namespace BosFlow.Synthesis;

/// <summary>A steady displacement field, known exactly everywhere. Implementations are immutable and safe to use from several threads.</summary>
public interface IFlowField
{
    /// <summary>The field at a place of the undisturbed reference picture.</summary>
    /// <param name="x">Column, px; may lie outside the picture.</param>
    /// <param name="y">Row, px.</param>
    FlowSample At(double x, double y);
}
