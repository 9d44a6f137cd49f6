namespace BosFlow.Density;

/// <summary>Samples one side of a slice's projection outward from the axis.</summary>
/// <param name="sampler">Interpolation between nodes.</param>
/// <param name="sight">Lines of sight.</param>
/// <param name="axis">The axis.</param>
internal sealed class SlopeSampling(NodeSampler sampler, SightGeometry sight, AxisFrame axis)
{
    // As many samples as a window holds: what is missing there is no more than what a window averages.
    private const int WidestBridge = 4;

    /// <summary>The slope at b = 0, step, 2 step, ... as far as the displacement was measured; gaps on the way are bridged by the straight line, and lost where they are wider than a window.</summary>
    /// <param name="along">Position of the slice along the axis, px.</param>
    /// <param name="step">Distance of the samples, m.</param>
    /// <param name="most">Number of samples that may be wanted.</param>
    /// <param name="side">1 = right of the axis, -1 = left.</param>
    public SlopeProfile Side(double along, double step, int most, int side)
    {
        var view = new SliceView(sight, axis, along);
        var found = new NodeCombination?[most];
        Span<int> nodes = stackalloc int[NodeSampler.LargestStencil];
        Span<double> weights = stackalloc double[NodeSampler.LargestStencil];
        for (int i = 0; i < most; i++)
        {
            double b = side * i * step;
            (double x, double y) = axis.Place(along, view.RightPixels(b));
            int count = sampler.Stencil(x, y, nodes, weights);
            if (count > 0)
                found[i] = Combination(nodes[..count], weights[..count], side * view.SlopePerPixel(b));
        }

        return Bridged(found);
    }

    private NodeCombination Combination(ReadOnlySpan<int> nodes, ReadOnlySpan<double> weights, double perPixel)
    {
        double[] weightsU = new double[weights.Length];
        double[] weightsV = new double[weights.Length];
        for (int k = 0; k < weights.Length; k++)
        {
            weightsU[k] = weights[k] * perPixel * axis.RightX;
            weightsV[k] = weights[k] * perPixel * axis.RightY;
        }

        return new NodeCombination(nodes.ToArray(), weightsU, weightsV);
    }

    private static SlopeProfile Bridged(NodeCombination?[] found)
    {
        int last = Array.FindLastIndex(found, sample => sample is not null);
        var samples = new NodeCombination[last + 1];
        bool[] isBridged = new bool[last + 1];
        bool[] isLost = new bool[last + 1];
        int before = -1;
        for (int i = 0; i <= last; i++)
        {
            if (found[i] is { } sample)
            {
                samples[i] = sample;
                before = i;
                continue;
            }

            isBridged[i] = true;
            int after = Array.FindIndex(found, i, next => next is not null);
            isLost[i] = after - before - 1 > WidestBridge;
            // A gap that begins at the axis starts from zero, which the slope of a round flow is there.
            int start = Math.Max(before, 0);
            double share = (double)(i - start) / (after - start);
            samples[i] = NodeCombination.Sum(before < 0 ? NodeCombination.Zero : samples[before], 1 - share, found[after]!, share);
        }

        return new SlopeProfile(samples, isBridged, isLost);
    }
}
