namespace BosFlow.Numerics.Abel;

/// <summary>Inversions of Abel's transform as matrices, from the projection or straight from its slope.</summary>
public static class AbelOperators
{
    /// <summary>The three-point operator on the projection.</summary>
    /// <param name="nodes">Number of nodes, 3 or more.</param>
    /// <param name="spacing">Distance of the nodes, above 0.</param>
    /// <remarks>Source: C. J. Dasch 1992, Appl. Opt. 31, 1146 (from memory; the tests hold values computed apart). Second order in the spacing.</remarks>
    public static AbelOperator ThreePoint(int nodes, double spacing)
    {
        Check(nodes, spacing);
        return new AbelOperator("three-point, from the projection", AbelInput.Projection, nodes, ThreePointMatrix.Build(nodes, 1 / spacing));
    }

    /// <summary>Onion peeling on the projection: the profile is constant in each shell from half a node inside to half a node outside of a node.</summary>
    /// <param name="nodes">Number of nodes, 3 or more.</param>
    /// <param name="spacing">Distance of the nodes, above 0.</param>
    /// <remarks>Source: C. J. Dasch 1992, Appl. Opt. 31, 1146 (from memory); the inverse of the matrix of chords 2 sqrt((r_j + spacing / 2)^2 - y_i^2).</remarks>
    public static AbelOperator OnionPeeling(int nodes, double spacing)
    {
        Check(nodes, spacing);
        return new AbelOperator("onion peeling, from the projection", AbelInput.Projection, nodes, OnionMatrix.Build(nodes, 1 / spacing));
    }

    /// <summary>The two-point formula on the slope, which is taken as linear between nodes.</summary>
    /// <param name="nodes">Number of nodes, 3 or more.</param>
    /// <remarks>
    /// f_i = -(1 / pi) sum over cells of the exact integral of the linear slope over sqrt(y^2 - r_i^2); the spacing cancels. The slope on the axis is 0 by symmetry
    /// and not used. Source: P. S. Kolhe and A. K. Agrawal 2009, Appl. Opt. 48, 3894 (from memory; derived again for the tests).
    /// </remarks>
    public static AbelOperator TwoPoint(int nodes)
    {
        Check(nodes, 1);
        return new AbelOperator("two-point, from the slope", AbelInput.Slope, nodes, TwoPointMatrix.Build(nodes));
    }

    /// <summary>The slope as a cubic spline through the nodes, odd about the axis, integrated to rounding: fourth order, for profiles of few nodes.</summary>
    /// <param name="nodes">Number of nodes, 3 or more.</param>
    /// <remarks>
    /// The spline has continuous second derivatives, which are 0 on the axis (oddness) and at the last node (natural end); the slope on the axis is 0 by symmetry and not used.
    /// With q = sqrt(y^2 - r^2) the integrand dy / sqrt(y^2 - r^2) becomes dq / y, smooth, and Gauss-Legendre's rule with 16 points a cell is exact to rounding. Derived here.
    /// </remarks>
    public static AbelOperator CubicSlope(int nodes)
    {
        Check(nodes, 1);
        return new AbelOperator("cubic spline, from the slope", AbelInput.Slope, nodes, CubicSlopeMatrix.Build(nodes));
    }

    /// <summary>The slope summed to a projection by the trapezium rule from the last node inwards, then the three-point operator.</summary>
    /// <param name="nodes">Number of nodes, 3 or more.</param>
    /// <remarks>The order of operations that Y. Xiong, T. Kaufmann and N. Noiray 2020, Exp. Fluids 61, 178 (abstract) found more accurate with noise. The spacing cancels.</remarks>
    public static AbelOperator IntegratedThreePoint(int nodes)
    {
        Check(nodes, 1);
        double[] projection = ThreePointMatrix.Build(nodes, 1), matrix = new double[nodes * nodes];
        for (int i = 0; i < nodes; i++)
        {
            // F_k = -(G_k / 2 + G_(k+1) + ... + G_(n-1) / 2): collect what each slope contributes.
            double sum = 0;
            for (int j = 0; j < nodes; j++)
            {
                double weight = projection[(i * nodes) + j];
                matrix[(i * nodes) + j] = j < nodes - 1 ? -(sum + (weight / 2)) : -sum / 2;
                sum += weight;
            }

            matrix[i * nodes] = 0;
        }

        return new AbelOperator("summed, then three-point, from the slope", AbelInput.Slope, nodes, matrix);
    }

    private static void Check(int nodes, double spacing)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(nodes, 3);
        if (!(spacing > 0) || double.IsInfinity(spacing))
            throw new ArgumentOutOfRangeException(nameof(spacing), spacing, "The spacing of the nodes must be above 0.");
    }
}
