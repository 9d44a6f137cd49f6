using BosFlow.Numerics.LinearAlgebra;

namespace BosFlow.Displacement;

/// <summary>Normal matrices of windows with polynomials as shape functions, from the static sums of the reference's blocks. Working memory of the preparation.</summary>
/// <remarks>Order of the unknowns: the polynomials of u, those of v, level, 1.</remarks>
internal sealed class ShapeMatrix
{
    private const int Products = ShapeFunctions.AlongAxis * ShapeFunctions.AlongAxis;

    private readonly BlockReference reference;
    private readonly BlockLayout layout;
    private readonly double[] along;
    private readonly double[] down;

    public ShapeMatrix(ShapeFunctions functions, BlockReference reference)
    {
        this.reference = reference;
        layout = reference.Layout;
        along = new double[Products * layout.PerWindow];
        for (int product = 0; product < Products; product++)
        {
            for (int block = 0; block < layout.PerWindow; block++)
                along[(product * layout.PerWindow) + block] = (double)functions.Axis[product / ShapeFunctions.AlongAxis][block] * functions.Axis[product % ShapeFunctions.AlongAxis][block];
        }

        down = new double[Products * BlockReference.StaticTerms * layout.Columns];
    }

    /// <summary>Sums down the columns of blocks of a row of windows; to be called before <see cref="Fill"/>.</summary>
    /// <param name="top">First row of their blocks.</param>
    public void Begin(int top)
    {
        Array.Clear(down);
        for (int product = 0; product < Products; product++)
        {
            Span<double> target = Down(product, 0, BlockReference.StaticTerms * layout.Columns);
            for (int row = 0; row < layout.PerWindow; row++)
            {
                double weight = Along(product)[row];
                ReadOnlySpan<float> statics = reference.Statics(top + row);
                for (int i = 0; i < target.Length; i++)
                    target[i] += weight * statics[i];
            }
        }
    }

    /// <summary>Fills in the packed matrix of one window of the row.</summary>
    /// <param name="left">First of its blocks.</param>
    /// <param name="n">Number of polynomials, the first ones.</param>
    /// <param name="matrix">The lower triangle of 2 n + 2 rows.</param>
    public void Fill(int left, int n, Span<double> matrix)
    {
        for (int k = 0; k < n; k++)
        {
            (int kx, int ky) = ShapeFunctions.PowersOf(k);
            for (int l = 0; l <= k; l++)
            {
                (int lx, int ly) = ShapeFunctions.PowersOf(l);
                (int x, int y) = ((kx * ShapeFunctions.AlongAxis) + lx, (ky * ShapeFunctions.AlongAxis) + ly);
                matrix[CholeskyFactor.Place(k, l)] = Sum(x, y, 0, left);
                matrix[CholeskyFactor.Place(n + k, l)] = matrix[CholeskyFactor.Place(n + l, k)] = Sum(x, y, 1, left);
                matrix[CholeskyFactor.Place(n + k, n + l)] = Sum(x, y, 2, left);
            }

            matrix[CholeskyFactor.Place(2 * n, k)] = Sum(kx, ky, 3, left);
            matrix[CholeskyFactor.Place(2 * n, n + k)] = Sum(kx, ky, 4, left);
            matrix[CholeskyFactor.Place((2 * n) + 1, k)] = Sum(kx, ky, 6, left);
            matrix[CholeskyFactor.Place((2 * n) + 1, n + k)] = Sum(kx, ky, 7, left);
        }

        matrix[CholeskyFactor.Place(2 * n, 2 * n)] = Sum(0, 0, 5, left);
        matrix[CholeskyFactor.Place((2 * n) + 1, 2 * n)] = Sum(0, 0, 8, left);
        matrix[CholeskyFactor.Place((2 * n) + 1, (2 * n) + 1)] = Sum(0, 0, 9, left);
    }

    private ReadOnlySpan<double> Along(int product) => along.AsSpan(product * layout.PerWindow, layout.PerWindow);

    private Span<double> Down(int product, int term, int count) => down.AsSpan(((product * BlockReference.StaticTerms) + term) * layout.Columns, count);

    // A single function is its product with 1, so that powers themselves are products too.
    private double Sum(int productX, int productY, int term, int left)
    {
        ReadOnlySpan<double> weights = Along(productX), values = Down(productY, term, layout.Columns)[left..];
        double sum = 0;
        for (int i = 0; i < weights.Length; i++)
            sum += weights[i] * values[i];
        return sum;
    }
}
