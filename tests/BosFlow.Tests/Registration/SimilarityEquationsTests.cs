using BosFlow.Registration;

namespace BosFlow.Tests.Registration;

public sealed class SimilarityEquationsTests
{
    // Sums of some tens of products of the order of 1 in double precision.
    private const double Rounding = 1e-12;

    [Theory]
    [InlineData(1, false)]
    [InlineData(7, true)]
    [InlineData(8, false)]
    [InlineData(16, true)]
    [InlineData(29, true)]
    public void SetUp_AnyNumberOfVectors_SumsWhatTheJacobianGives(int count, bool weighted)
    {
        var random = new Random(count);
        double[] Draw() => [.. Enumerable.Range(0, count).Select(_ => random.NextDouble())];
        MotionVectors vectors = MotionVectors.Of(Draw(), Draw(), Draw(), Draw(), Draw());
        double[] factors = weighted ? Draw() : [];
        double[] p = [0.1, -0.2, 0.3, 0.4];
        var model = new MotionParameters(MotionModel.Similarity);
        double[] h = new double[9];
        model.Matrix(p, h);

        double[] normal = new double[16];
        double[] right = new double[4];
        SimilarityEquations.SetUp(h, vectors, factors, normal, right);

        (double[] expectedNormal, double[] expectedRight) = Plain(model, p, h, vectors, factors);
        for (int i = 0; i < normal.Length; i++)
            Assert.Equal(expectedNormal[i], normal[i], Rounding);
        for (int i = 0; i < right.Length; i++)
            Assert.Equal(expectedRight[i], right[i], Rounding);
    }

    private static (double[] Normal, double[] Right) Plain(MotionParameters model, double[] p, double[] h, MotionVectors vectors, double[] factors)
    {
        double[] normal = new double[16];
        double[] right = new double[4];
        double[] ju = new double[4];
        double[] jv = new double[4];
        for (int i = 0; i < vectors.Count; i++)
        {
            double weight = vectors.Weight[i] * (factors.Length == 0 ? 1 : factors[i]);
            (double mappedX, double mappedY) = MotionParameters.Map(h, vectors.X[i], vectors.Y[i]);
            model.Jacobian(p, vectors.X[i], vectors.Y[i], ju, jv);
            for (int row = 0; row < 4; row++)
            {
                right[row] += weight * ((ju[row] * (vectors.TargetX[i] - mappedX)) + (jv[row] * (vectors.TargetY[i] - mappedY)));
                for (int column = 0; column < 4; column++)
                    normal[(4 * row) + column] += weight * ((ju[row] * ju[column]) + (jv[row] * jv[column]));
            }
        }

        return (normal, right);
    }
}
