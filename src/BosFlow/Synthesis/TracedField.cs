namespace BosFlow.Synthesis;

/// <summary>A flow by ray tracing: for every dot the ray that really meets it is found, so the displacement is exact.</summary>
/// <remarks>
/// The dot at the reference pixel p is seen at p + (u, v), where the ray of pixel p + (u, v) meets the background at the dot. Solved by fixed-point iteration,
/// which contracts by the displacement's gradient (a few hundredths) in each turn, to 1e-9 px.
/// </remarks>
/// <param name="view">The camera.</param>
/// <param name="flow">The index of the flow.</param>
public sealed class TracedField(ViewGeometry view, IIndexField flow) : IFlowField
{
    private const double LargestRest = 1e-9;
    private const int LargestTurns = 60;
    private readonly RayTracer tracer = new(view, flow);

    /// <inheritdoc/>
    /// <exception cref="ConfigurationException">The flow is so strong that rays cross before the background: no single displacement exists.</exception>
    public FlowSample At(double x, double y)
    {
        (double dotX, double dotY) = view.OnBackground(x, y);
        double u = 0;
        double v = 0;
        for (int turn = 0; turn < LargestTurns; turn++)
        {
            TracedRay ray = tracer.Trace(x + u, y + v);
            double restX = (ray.X - dotX) / view.BackgroundMetresPerPixel;
            double restY = (ray.Y - dotY) / view.BackgroundMetresPerPixel;
            u -= restX;
            v -= restY;
            if (Math.Abs(restX) < LargestRest && Math.Abs(restY) < LargestRest)
                return new FlowSample(u, v, ray.IndexGradientPathX, ray.IndexGradientPathY);
        }

        throw new ConfigurationException([FormattableString.Invariant($"The flow is so strong that rays cross near ({x:F0}, {y:F0}) px; make its change of density, its length along the line of sight or the distance to the background smaller.")]);
    }
}
