using BosFlow.Numerics.LinearAlgebra;
using CsCheck;
using MathNet.Numerics.LinearAlgebra;

namespace BosFlow.Numerics.Tests.LinearAlgebra;

public sealed class SymmetricInverse4Tests
{
    [Fact]
    public void TryInvert_PositiveDefinite_AgreesWithMathNet() =>
        Gen.Double[-2, 2].Array[20].Sample(entries =>
        {
            Matrix<double> factor = Matrix<double>.Build.Dense(5, 4, entries);
            Matrix<double> matrix = (factor.Transpose() * factor) + (0.1 * Matrix<double>.Build.DenseIdentity(4));
            double[] packed = Pack(matrix), inverse = new double[10], product = new double[4];

            Assert.True(SymmetricInverse4.TryInvert(packed, inverse));

            double[] expected = Pack(matrix.Inverse());
            for (int i = 0; i < 10; i++)
                Assert.Equal(expected[i], inverse[i], 1e-9 * (1 + Math.Abs(expected[i])));
            SymmetricInverse4.Multiply(packed, [1, -2, 3, 0.5], product);
            Vector<double> expectedProduct = matrix * Vector<double>.Build.Dense([1, -2, 3, 0.5]);
            for (int i = 0; i < 4; i++)
                Assert.Equal(expectedProduct[i], product[i], 1e-12 * (1 + Math.Abs(expectedProduct[i])));
        });

    [Fact]
    public void TryInvert_Singular_IsRefused()
    {
        double[] inverse = new double[10];

        Assert.False(SymmetricInverse4.TryInvert([1, 1, 1, 0, 0, 1, 0, 0, 0, 1], inverse));
        Assert.False(SymmetricInverse4.TryInvert(new double[10], inverse));
    }

    private static double[] Pack(Matrix<double> m) =>
        [m[0, 0], m[1, 0], m[1, 1], m[2, 0], m[2, 1], m[2, 2], m[3, 0], m[3, 1], m[3, 2], m[3, 3]];
}
