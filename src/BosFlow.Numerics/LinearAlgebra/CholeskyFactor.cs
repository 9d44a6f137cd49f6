namespace BosFlow.Numerics.LinearAlgebra;

/// <summary>Cholesky decomposition of small symmetric positive definite matrices, packed as their lower triangle row by row; no memory of its own.</summary>
/// <remarks>N = L L^T; source: any text on linear algebra.</remarks>
public static class CholeskyFactor
{
    private const double Smallest = 1e-12;

    /// <summary>Entries of a packed matrix.</summary>
    /// <param name="size">Rows of the matrix.</param>
    public static int PackedLength(int size) => size * (size + 1) / 2;

    /// <summary>Place of an entry of the lower triangle.</summary>
    /// <param name="row">Row.</param>
    /// <param name="column">Column, at most the row.</param>
    public static int Place(int row, int column) => (row * (row + 1) / 2) + column;

    /// <summary>Replaces a matrix by its factor L.</summary>
    /// <param name="matrix">Packed matrix; the packed factor on return.</param>
    /// <param name="size">Rows of the matrix.</param>
    /// <returns>False where the matrix is not positive definite to about 12 digits; its entries are then of no use.</returns>
    public static bool TryFactor(Span<double> matrix, int size)
    {
        for (int row = 0; row < size; row++)
        {
            for (int column = 0; column <= row; column++)
            {
                double original = matrix[Place(row, column)], sum = original;
                for (int k = 0; k < column; k++)
                    sum -= matrix[Place(row, k)] * matrix[Place(column, k)];
                if (row == column && !(sum > Smallest * original))
                    return false;
                matrix[Place(row, column)] = row == column ? Math.Sqrt(sum) : sum / matrix[Place(column, column)];
            }
        }

        return true;
    }

    /// <summary>Solves N x = b.</summary>
    /// <param name="factor">What <see cref="TryFactor"/> left.</param>
    /// <param name="values">b, one entry a row; x on return.</param>
    public static void Solve(ReadOnlySpan<double> factor, Span<double> values)
    {
        for (int row = 0; row < values.Length; row++)
        {
            for (int k = 0; k < row; k++)
                values[row] -= factor[Place(row, k)] * values[k];
            values[row] /= factor[Place(row, row)];
        }

        for (int row = values.Length - 1; row >= 0; row--)
        {
            for (int k = row + 1; k < values.Length; k++)
                values[row] -= factor[Place(k, row)] * values[k];
            values[row] /= factor[Place(row, row)];
        }
    }
}
