using BosFlow.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra;

namespace BosFlow.Numerics.Tests.LinearAlgebra;

public sealed class CholeskyFactorTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(4)]
    [InlineData(14)]
    public void Solve_RandomPositiveMatrix_IsMathNetsSolution(int size)
    {
        var random = new Random(size);
        Matrix<double> root = Matrix<double>.Build.Dense(size, size + 2, (_, _) => (2 * random.NextDouble()) - 1), matrix = root * root.Transpose();
        Vector<double> right = Vector<double>.Build.Dense(size, _ => (2 * random.NextDouble()) - 1);
        double[] packed = new double[CholeskyFactor.PackedLength(size)], values = right.ToArray();
        for (int row = 0; row < size; row++)
        {
            for (int column = 0; column <= row; column++)
                packed[CholeskyFactor.Place(row, column)] = matrix[row, column];
        }

        Assert.True(CholeskyFactor.TryFactor(packed, size));
        CholeskyFactor.Solve(packed, values);

        Vector<double> expected = matrix.Cholesky().Solve(right);
        for (int i = 0; i < size; i++)
            Assert.Equal(expected[i], values[i], 1e-9 * expected.AbsoluteMaximum());
    }

    [Fact]
    public void TryFactor_RowsThatDependOnEachOther_IsRefused() => Assert.False(CholeskyFactor.TryFactor([1, 2, 4], 2));
}
