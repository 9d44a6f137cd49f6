using BosFlow.Displacement;

namespace BosFlow.Density;

/// <summary>Covariance of linear combinations of the displacement, with the correlation of neighbouring vectors whose windows overlap.</summary>
/// <remarks>Errors of u and v are taken as independent of each other. Not safe for several threads: it keeps scratch planes.</remarks>
internal sealed class DisplacementErrors
{
    private readonly NodeGrid grid;
    private readonly double[] sigmaU;
    private readonly double[] sigmaV;
    private readonly double[] correlation;
    private readonly double[] planeU;
    private readonly double[] planeV;

    /// <summary>Errors of a field.</summary>
    /// <param name="field">The field with its sigmas.</param>
    /// <param name="correlation">Correlation along either axis by distance in nodes; the first entry is 1.</param>
    public DisplacementErrors(SightlineField field, double[] correlation)
    {
        grid = field.Grid;
        sigmaU = field.SigmaU;
        sigmaV = field.SigmaV;
        this.correlation = correlation;
        planeU = new double[grid.Count];
        planeV = new double[grid.Count];
    }

    /// <summary>Covariance matrix of the samples of a profile.</summary>
    /// <returns>Row-major, Count x Count, in the square of the profile's unit.</returns>
    public double[] Covariance(SlopeProfile profile)
    {
        int count = profile.Count;
        double[] covariance = new double[count * count];
        for (int i = 0; i < count; i++)
        {
            Spread(profile[i], 1);
            for (int j = i; j < count; j++)
            {
                double value = Product(profile[j]);
                covariance[(i * count) + j] = value;
                covariance[(j * count) + i] = value;
            }

            Spread(profile[i], 0);
        }

        return covariance;
    }

    /// <summary>Puts (or, with factor 0, clears) the combination's weights times sigma, spread by the correlation, into the scratch planes.</summary>
    private void Spread(NodeCombination combination, double factor)
    {
        int reach = correlation.Length - 1;
        for (int k = 0; k < combination.Nodes.Length; k++)
        {
            int node = combination.Nodes[k];
            int row = node / grid.Columns;
            int column = node % grid.Columns;
            double u = combination.WeightsU[k] * sigmaU[node];
            double v = combination.WeightsV[k] * sigmaV[node];
            for (int y = Math.Max(0, row - reach); y <= Math.Min(grid.Rows - 1, row + reach); y++)
            {
                for (int x = Math.Max(0, column - reach); x <= Math.Min(grid.Columns - 1, column + reach); x++)
                {
                    double rho = factor * correlation[Math.Abs(x - column)] * correlation[Math.Abs(y - row)];
                    int place = (y * grid.Columns) + x;
                    planeU[place] = factor == 0 ? 0 : planeU[place] + (rho * u);
                    planeV[place] = factor == 0 ? 0 : planeV[place] + (rho * v);
                }
            }
        }
    }

    private double Product(NodeCombination combination)
    {
        double sum = 0;
        for (int k = 0; k < combination.Nodes.Length; k++)
        {
            int node = combination.Nodes[k];
            sum += (combination.WeightsU[k] * sigmaU[node] * planeU[node]) + (combination.WeightsV[k] * sigmaV[node] * planeV[node]);
        }

        return sum;
    }
}
