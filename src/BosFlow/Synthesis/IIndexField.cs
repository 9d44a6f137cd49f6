namespace BosFlow.Synthesis;

/// <summary>Refractive index of a flow in space, in the axes of <see cref="ViewGeometry"/>: x right, y down, z from the pinhole towards the background, m. Implementations are immutable and safe to use from several threads.</summary>
public interface IIndexField
{
    /// <summary>The field at a point inside the stretch that <see cref="StretchAt"/> gives for its ray.</summary>
    /// <param name="x">x, m.</param>
    /// <param name="y">y, m.</param>
    /// <param name="z">z, m.</param>
    IndexSample At(double x, double y, double z);

    /// <summary>Where along z a ray meets the flow; outside of it the index is that of the surrounding gas.</summary>
    /// <param name="flowX">x at which the undisturbed line of sight meets the flow plane, m.</param>
    /// <param name="flowY">y likewise, m.</param>
    FlowStretch StretchAt(double flowX, double flowY);
}
