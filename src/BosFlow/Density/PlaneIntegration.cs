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
    /// <param name="request">Where the gas is the surrounding one, how errors hang together, threads.</param>
    /// <param name="cancellationToken">Stops the solver.</param>
    public static PlaneIntegration Of(SightlineField field, bool[] isSolid, DensityRequest request, CancellationToken cancellationToken)
    {
        bool[] isAmbient = Density.AmbientNodes.Of(field.Grid, field.IsKnown, request.Flow);
        GradientIntegrator integrator = Integrator(field, isSolid, isAmbient, request.Threads, cancellationToken);
        IntegrationResult result = integrator.Solve(cancellationToken);
        var errors = new GradientErrors { CorrelationAlongX = request.ErrorCorrelation, CorrelationAlongY = request.ErrorCorrelation };
        SigmaEstimate sigma = integrator.Sigma(errors, Probes, ProbeSeed, cancellationToken);
        DensityFlags[] flags = [.. Enumerable.Range(0, field.Grid.Count).Select(node => Flag(result, field, node))];
        return new PlaneIntegration(
            new UnitField(result.Values, sigma.Sigma, flags), [.. result.NormalisedResidual.Select(value => (float)value)],
            result.ResidualRms, sigma.ExpectedResidualRms, isAmbient.Count(ambient => ambient));
    }

    /// <summary>The integral alone, for comparisons, px2.</summary>
    public static double[] Values(SightlineField field, bool[] isSolid, DensityRequest request, CancellationToken cancellationToken) =>
        Integrator(field, isSolid, Density.AmbientNodes.Of(field.Grid, field.IsKnown, request.Flow), request.Threads, cancellationToken).Solve(cancellationToken).Values;

    private static GradientIntegrator Integrator(SightlineField field, bool[] isSolid, bool[] isAmbient, int threads, CancellationToken cancellationToken)
    {
        var problem = new GradientProblem
        {
            Columns = field.Grid.Columns,
            Rows = field.Grid.Rows,
            Spacing = field.Grid.Spacing,
            GradientX = field.U,
            GradientY = field.V,
            SigmaX = field.SigmaU,
            SigmaY = field.SigmaV,
            Domain = [.. isSolid.Select(solid => !solid)],
            Known = [.. isAmbient.Select(ambient => ambient ? 0 : double.NaN)],
        };
        return GradientIntegrator.Prepare(problem, new IntegrationOptions { Threads = threads }, cancellationToken);
    }

    private static DensityFlags Flag(IntegrationResult result, SightlineField field, int node)
    {
        if (result.Part[node] < 0)
            return DensityFlags.NotMeasured;
        DensityFlags flag = result.IsAnchored[result.Part[node]] ? DensityFlags.None : DensityFlags.NotAnchored;
        return field.IsKnown[node] ? flag : flag | DensityFlags.Bridged;
    }
}
