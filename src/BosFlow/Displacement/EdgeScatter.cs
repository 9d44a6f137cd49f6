namespace BosFlow.Displacement;

/// <summary>What the passes leave of the scatter of blocks and of groups of 2 x 2 blocks, and make of it in the result: of displacements that are independent from block to block, and of what the edges of the blocks make. The settings alone decide it.</summary>
/// <param name="Blocks">Of single blocks.</param>
/// <param name="Groups">Of groups.</param>
/// <param name="Result">In the result.</param>
internal sealed record EdgeScatter(ScatterParts Blocks, ScatterParts Groups, ScatterParts Result)
{
    // Fewer blocks tell less than what they would mend.
    private const int FewestBlocks = 2000;
    private const double Least = 0.5;

    /// <summary>For windows and settings; null where groups tell nothing of edges.</summary>
    /// <remarks>A group that is nearly the window scatters hardly at all, polynomials fit most of what a group scatters, and sums that were moved have errors of their own, which residuals do not show.</remarks>
    public static EdgeScatter? Of(BlockLayout layout, DisplacementSettings settings)
    {
        if (settings is not { Shape: WindowShape.Constant, LastPass: Sampling.Everywhere } || layout.PerWindow < 2 * EdgeShare.Side || layout.Rows * layout.Columns < FewestBlocks)
            return null;
        var passes = new GroupScatter(layout, settings.Passes, settings.PredictorSmoothings);
        return new EdgeScatter(passes.Left(1), passes.Left(EdgeShare.Side), passes.Result());
    }

    /// <summary>Factor by which the scatter of single blocks is to be taken so that it is the result's own: 0.5 to <paramref name="most"/>, over what the passes leave of independent blocks.</summary>
    /// <param name="ratio">Found scatter of groups over that of single blocks, each over what is expected after one pass.</param>
    /// <param name="most">What noise that neighbouring pixels share makes of it (<see cref="SharedNoise"/>): steep flow makes groups scatter more than that, and chance where there are few.</param>
    public double Left(double ratio, double most)
    {
        // What the passes leave of independent blocks is less than is expected after one pass.
        double all = 1 / Blocks.Independent;
        // Beyond these ratios there is no q.
        if (ratio <= Groups.OfEdges / Blocks.OfEdges)
            return all * Least;
        // With q the variance of what an edge makes over that of what is independent, ratio = (g + q h) / (b + q c); then the part of the edges in single blocks is taken off, and that in the result added.
        double edges = ((ratio * Blocks.Independent) - Groups.Independent) / (Groups.OfEdges - (ratio * Blocks.OfEdges));
        double left = (1 + (edges * Result.OfEdges / Result.Independent)) / (1 + (edges * Blocks.OfEdges / Blocks.Independent));
        return all * (left > 0 && edges * Blocks.OfEdges > -Blocks.Independent ? Math.Clamp(left, Least, most) : most);
    }
}
