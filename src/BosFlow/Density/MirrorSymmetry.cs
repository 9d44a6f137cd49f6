namespace BosFlow.Density;

/// <summary>How well a field of displacement mirrors itself at an axis, as that of a round flow does: the component along the axis alike on both sides, that across it opposite.</summary>
internal sealed class MirrorSymmetry
{
    private readonly SightlineField field;
    private readonly NodeSampler sampler;
    private readonly (int Node, double X, double Y)[] places;

    /// <summary>Prepares a field.</summary>
    /// <param name="field">The field.</param>
    /// <param name="stride">Only every so many-th node along either axis is compared.</param>
    public MirrorSymmetry(SightlineField field, int stride)
    {
        this.field = field;
        sampler = new NodeSampler(field.Grid, field.IsKnown);
        places =
        [
            .. from row in Enumerable.Range(0, field.Grid.Rows)
               from column in Enumerable.Range(0, field.Grid.Columns)
               where row % stride == 0 && column % stride == 0
               let node = (row * field.Grid.Columns) + column
               where field.IsKnown[node]
               select (node, field.Grid.X(column), field.Grid.Y(row)),
        ];
        Energy = places.Sum(place => (field.U[place.Node] * field.U[place.Node]) + (field.V[place.Node] * field.V[place.Node]));
    }

    /// <summary>Sum of the squared displacement over the places compared, px2.</summary>
    public double Energy { get; }

    /// <summary>Sum of the products of the displacement with its mirror image, px2: equal to <see cref="Energy"/> for a perfect axis, smaller for any other.</summary>
    public double Overlap(AxisFrame axis)
    {
        double sum = 0;
        foreach ((int node, double u, double v) in Mirrored(axis))
            sum += (field.U[node] * u) + (field.V[node] * v);
        return sum;
    }

    /// <summary>Displacement minus its mirror image in units of its standard uncertainty, u and v of each place in turn; 0 where no image is known.</summary>
    public double[] Differences(AxisFrame axis)
    {
        double[] differences = new double[2 * places.Length];
        int index = 0;
        int place = 0;
        foreach ((int node, double u, double v) in Mirrored(axis, keepUnknown: true))
        {
            index = 2 * place++;
            if (double.IsNaN(u))
                continue;
            differences[index] = (field.U[node] - u) / field.SigmaU[node];
            differences[index + 1] = (field.V[node] - v) / field.SigmaV[node];
        }

        return differences;
    }

    /// <summary>RMS of the difference of both sides over the RMS of the displacement, over the places that have an image.</summary>
    public double AsymmetryShare(AxisFrame axis)
    {
        double difference = 0;
        double energy = 0;
        foreach ((int node, double u, double v) in Mirrored(axis))
        {
            double du = field.U[node] - u;
            double dv = field.V[node] - v;
            difference += (du * du) + (dv * dv);
            energy += (field.U[node] * field.U[node]) + (field.V[node] * field.V[node]);
        }

        return energy > 0 ? Math.Sqrt(difference / energy) : double.NaN;
    }

    /// <summary>What <see cref="AsymmetryShare"/> would be from the stated errors alone.</summary>
    public double NoiseShare()
    {
        double noise = places.Sum(place => (field.SigmaU[place.Node] * field.SigmaU[place.Node]) + (field.SigmaV[place.Node] * field.SigmaV[place.Node]));
        return Energy > 0 ? Math.Sqrt(2 * noise / Energy) : double.NaN;
    }

    /// <summary>The mirror image at each place: the displacement found at the mirrored place, itself mirrored.</summary>
    private IEnumerable<(int Node, double U, double V)> Mirrored(AxisFrame axis, bool keepUnknown = false)
    {
        int[] nodes = new int[NodeSampler.LargestStencil];
        double[] weights = new double[NodeSampler.LargestStencil];
        foreach ((int node, double x, double y) in places)
        {
            (double along, double right) = axis.Split(x, y);
            (double mirrorX, double mirrorY) = axis.Place(along, -right);
            int count = IsWithin(mirrorX, mirrorY) ? sampler.Stencil(mirrorX, mirrorY, nodes, weights) : 0;
            if (count == 0)
            {
                if (keepUnknown)
                    yield return (node, double.NaN, double.NaN);
                continue;
            }

            double u = 0;
            double v = 0;
            for (int k = 0; k < count; k++)
            {
                u += weights[k] * field.U[nodes[k]];
                v += weights[k] * field.V[nodes[k]];
            }

            double across = (u * axis.RightX) + (v * axis.RightY);
            yield return (node, u - (2 * across * axis.RightX), v - (2 * across * axis.RightY));
        }
    }

    // Beyond the outermost nodes the sampler extrapolates, which multiplies the errors.
    private bool IsWithin(double x, double y) =>
        x >= field.Grid.X(0) && x <= field.Grid.X(field.Grid.Columns - 1) && y >= field.Grid.Y(0) && y <= field.Grid.Y(field.Grid.Rows - 1);
}
