namespace BosFlow.Numerics.LinearAlgebra;

/// <summary>Inverse of a symmetric positive definite 4 x 4 matrix, as the normal equations of a window need it.</summary>
public static class SymmetricInverse4
{
    /// <summary>Entries of a packed matrix: 00, 10, 11, 20, 21, 22, 30, 31, 32, 33.</summary>
    public const int PackedLength = 10;

    /// <summary>Inverts a packed matrix by Cholesky decomposition.</summary>
    /// <param name="matrix">Lower triangle row by row, 10 entries.</param>
    /// <param name="inverse">Lower triangle of the inverse, 10 entries; may be the same span.</param>
    /// <returns>False where the matrix is not positive definite to about 12 digits; then <paramref name="inverse"/> is unchanged.</returns>
    public static bool TryInvert(ReadOnlySpan<double> matrix, Span<double> inverse)
    {
        Span<double> l = stackalloc double[PackedLength];
        matrix[..PackedLength].CopyTo(l);
        if (!CholeskyFactor.TryFactor(l, 4))
            return false;

        // Inverse of the triangle in place of its upper half would save nothing at this size: keep it plain.
        Span<double> t = stackalloc double[16];
        for (int i = 0; i < 4; i++)
        {
            t[(i * 4) + i] = 1 / l[CholeskyFactor.Place(i, i)];
            for (int j = 0; j < i; j++)
            {
                double sum = 0;
                for (int k = j; k < i; k++)
                    sum -= l[CholeskyFactor.Place(i, k)] * t[(k * 4) + j];
                t[(i * 4) + j] = sum / l[CholeskyFactor.Place(i, i)];
            }
        }

        for (int i = 0; i < 4; i++)
        {
            for (int j = 0; j <= i; j++)
            {
                double sum = 0;
                for (int k = i; k < 4; k++)
                    sum += t[(k * 4) + i] * t[(k * 4) + j];
                inverse[(i * (i + 1) / 2) + j] = sum;
            }
        }

        return true;
    }

    /// <summary>Product of a packed symmetric matrix and a vector.</summary>
    /// <param name="matrix">Packed matrix, 10 entries.</param>
    /// <param name="vector">4 entries.</param>
    /// <param name="product">4 entries; must not overlap the vector.</param>
    public static void Multiply(ReadOnlySpan<double> matrix, ReadOnlySpan<double> vector, Span<double> product)
    {
        product[0] = (matrix[0] * vector[0]) + (matrix[1] * vector[1]) + (matrix[3] * vector[2]) + (matrix[6] * vector[3]);
        product[1] = (matrix[1] * vector[0]) + (matrix[2] * vector[1]) + (matrix[4] * vector[2]) + (matrix[7] * vector[3]);
        product[2] = (matrix[3] * vector[0]) + (matrix[4] * vector[1]) + (matrix[5] * vector[2]) + (matrix[8] * vector[3]);
        product[3] = (matrix[6] * vector[0]) + (matrix[7] * vector[1]) + (matrix[8] * vector[2]) + (matrix[9] * vector[3]);
    }
}
