using BosFlow.Speckle;

namespace BosFlow.Synthesis;

/// <summary>Dots as a lens of finite aperture sees them through a flow: each is a bundle of rays that cross the flow plane in a disc and are deflected differently.</summary>
/// <remarks>
/// Each dot becomes seven of a seventh of its contrast, displaced as the field displaces dots seen through a middle and six places around it on the disc, of equal shares of its area: their
/// second moment is 0.98 of the disc's; first order in the deflection, as is the geometric blur (f / N) Z_D / Z_B itself.
/// </remarks>
public static class ApertureView
{
    /// <summary>Displaces dots bundle by bundle.</summary>
    /// <param name="pattern">Dots of the undisturbed view.</param>
    /// <param name="flow">The field of a pinhole camera.</param>
    /// <param name="blurPixels">Diameter of the disc in the flow plane, px of the flow plane, 0 or more.</param>
    /// <param name="cancellationToken">Stops between two dots.</param>
    /// <returns>Seven dots for each, in their order.</returns>
    public static Dot[] Displace(IReadOnlyList<Dot> pattern, IFlowField flow, double blurPixels, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(pattern);
        ArgumentNullException.ThrowIfNull(flow);
        ArgumentOutOfRangeException.ThrowIfNegative(blurPixels);
        (double X, double Y)[] places = Places(blurPixels / 2);
        var displaced = new Dot[pattern.Count * places.Length];
        Parallel.For(0, pattern.Count, new ParallelOptions { CancellationToken = cancellationToken }, i =>
        {
            Dot dot = pattern[i];
            for (int k = 0; k < places.Length; k++)
            {
                FlowSample sample = flow.At(dot.X + places[k].X, dot.Y + places[k].Y);
                displaced[(i * places.Length) + k] = new Dot(dot.X + sample.U, dot.Y + sample.V, dot.Contrast / places.Length);
            }
        });
        return displaced;
    }

    /// <summary>One place in the middle, six on the root-mean-square radius of the ring that is left of the disc: (1 / 7 + 1) / 2 of its radius squared.</summary>
    private static (double X, double Y)[] Places(double radius)
    {
        double ring = radius * Math.Sqrt(4.0 / 7);
        return [(0, 0), .. Enumerable.Range(0, 6).Select(k => Math.SinCos((k + 0.5) * Math.PI / 3)).Select(direction => (ring * direction.Cos, ring * direction.Sin))];
    }
}
