using MathNet.Numerics.Integration;

namespace BosFlow.Numerics.Tests.Abel;

/// <summary>The closed forms that other tests rely on.</summary>
public sealed class AbelPairTests
{
    public static TheoryData<int> Pairs => [.. Enumerable.Range(0, AbelPair.All.Count)];

    [Theory]
    [MemberData(nameof(Pairs))]
    public void Projection_AgreesWithQuadrature(int index)
    {
        AbelPair pair = AbelPair.All[index];
        foreach (double y in (double[])[0.1, 0.3, 0.45, 0.7, 0.9])
        {
            // r = sqrt(y^2 + q^2): F = 2 INT f dq. MathNet's double-exponential rule copes with the root at the end; a kink is a seam.
            double end = Math.Sqrt((pair.OuterRadius * pair.OuterRadius) - (y * y)), seam = y < 0.5 ? Math.Sqrt(0.25 - (y * y)) : 0;
            double Integrand(double q) => pair.Profile(Math.Sqrt((y * y) + (q * q)));
            double integral = DoubleExponentialTransformation.Integrate(Integrand, 0, seam, 1e-12) + DoubleExponentialTransformation.Integrate(Integrand, seam, end, 1e-12);

            Assert.Equal(2 * integral, pair.Projection(y), 1e-6);
        }
    }

    [Theory]
    [MemberData(nameof(Pairs))]
    public void Slope_IsDerivativeOfProjection(int index)
    {
        AbelPair pair = AbelPair.All[index];
        const double Step = 1e-3;
        foreach (double y in (double[])[0.1, 0.3, 0.45, 0.7, 0.9])
        {
            double derivative = ((8 * (pair.Projection(y + Step) - pair.Projection(y - Step))) - (pair.Projection(y + (2 * Step)) - pair.Projection(y - (2 * Step)))) / (12 * Step);

            Assert.Equal(derivative, pair.Slope(y), 1e-6);
        }
    }
}
