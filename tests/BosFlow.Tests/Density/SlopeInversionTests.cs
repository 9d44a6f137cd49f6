using BosFlow.Density;
using BosFlow.Speckle;
using MathNet.Numerics.LinearAlgebra;

namespace BosFlow.Tests.Density;

public sealed class SlopeInversionTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(4)]
    [InlineData(11)]
    public void Sigma_BandedCovariance_EqualsTheDenseProduct(int band)
    {
        const int Count = 12;
        var random = new SeededRandom((ulong)band);
        double[] matrix = [.. Enumerable.Range(0, Count * Count).Select(_ => random.NextNormal())];
        // B B^T of a banded B is a covariance whose band is twice as wide at most.
        Matrix<double> half = Matrix<double>.Build.Dense(Count, Count, (i, j) => i >= j && i - j <= band ? random.NextNormal() : 0);
        Matrix<double> covariance = half * half.Transpose();

        double[] sigma = new SlopeInversion(matrix, Count).Sigma(covariance.ToRowMajorArray());

        Matrix<double> d = Matrix<double>.Build.Dense(Count, Count, (i, j) => matrix[(i * Count) + j]);
        Matrix<double> expected = d * covariance * d.Transpose();
        for (int i = 0; i < Count; i++)
            Assert.Equal(Math.Sqrt(expected[i, i]), sigma[i], 1e-9);
    }

    [Fact]
    public void Apply_Slope_IsTheMatrixProduct() =>
        Assert.Equal([-1.5, 6], new SlopeInversion([1, 2, 3, -4], 2).Apply([0.6, -1.05]).Select(value => Math.Round(value, 12)));
}
