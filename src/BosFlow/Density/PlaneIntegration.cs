using BosFlow.Displacement;
using BosFlow.Numerics.Integration;

namespace BosFlow.Density;

/// <summary>Integrates the displacement over the picture, from the places whose density is known.</summary>
internal sealed class PlaneIntegration
{
    // 256 probes: the sigma itself is uncertain by 4.4 %.
    private const int Probes = 256;
    private const ulong ProbeSeed = 0x0B05F10E;

    private PlaneIntegration(UnitField field, float[] residual, double residualRms, double expectedRms, int ambientNodes)
    {
        Field = field;
        NormalisedResidual = residual;
        ResidualRms = residualRms;
        ExpectedResidualRms = expectedRms;
        AmbientNodes = ambientNodes;
    }

    /// <summary>The integral, px2.</summary>
    public UnitField Field { get; }

    /// <summary>Residual at each node in units of its sigma.</summary>
    public float[] NormalisedResidual { get; }

    /// <summary>RMS of all residuals in units of their sigma; NaN without excess equations.</summary>
    public double ResidualRms { get; }

    /// <summary>The same for errors as stated and no curl.</summary>
    public double ExpectedResidualRms { get; }

    /// <summary>Number of nodes with a known value.</summary>
    public int AmbientNodes { get; }

    /// <summary>Integrates.</summary>
    /// <param name="field">Displacement with sigma.</param>
    /// <param name="isSolid">Nodes that the field must go round: masked ones.</param>
    /// <param name="settings">Where the gas is the surrounding one.</param>
    /// <param name="correlation">Correlation of the errors by distance in nodes.</param>
    /// <param name="threads">Threads; the result does not depend on them.</param>
    /// <param name="cancellationToken">Stops the solver.</param>
    public static PlaneIntegration Of(
        SightlineField field, bool[] isSolid, FlowSettings settings, double[] correlation, int threads, CancellationToken cancellationToken)
    {
        NodeGrid grid = field.Grid;
        bool[] isAmbient = Density.AmbientNodes.Of(grid, field.IsKnown, settings);
        var problem = new GradientProblem
        {
            Columns = grid.Columns,
            Rows = grid.Rows,
            Spacing = grid.Spacing,
            GradientX = field.U,
            GradientY = field.V,
            SigmaX = field.SigmaU,
            SigmaY = field.SigmaV,
            Domain = [.. isSolid.Select(solid => !solid)],
            Known = [.. isAmbient.Select(ambient => ambient ? 0 : double.NaN)],
        };
        GradientIntegrator integrator = GradientIntegrator.Prepare(problem, new IntegrationOptions { Threads = threads }, cancellationToken);
        IntegrationResult result = integrator.Solve(cancellationToken);
        SigmaEstimate sigma = integrator.Sigma(new GradientErrors { CorrelationAlongX = correlation, CorrelationAlongY = correlation }, Probes, ProbeSeed, cancellationToken);
        DensityFlags[] flags = [.. Enumerable.Range(0, grid.Count).Select(node => Flag(result, field, node))];
        return new PlaneIntegration(
            new UnitField(result.Values, sigma.Sigma, flags), [.. result.NormalisedResidual.Select(value => (float)value)],
            result.ResidualRms, sigma.ExpectedResidualRms, isAmbient.Count(ambient => ambient));
    }

    private static DensityFlags Flag(IntegrationResult result, SightlineField field, int node)
    {
        if (result.Part[node] < 0)
            return DensityFlags.NotMeasured;
        DensityFlags flag = result.IsAnchored[result.Part[node]] ? DensityFlags.None : DensityFlags.NotAnchored;
        return field.IsKnown[node] ? flag : flag | DensityFlags.Bridged;
    }
}
