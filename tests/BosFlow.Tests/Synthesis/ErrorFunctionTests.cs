using BosFlow.Synthesis;
using MathNet.Numerics;

namespace BosFlow.Tests.Synthesis;

public sealed class ErrorFunctionTests
{
    [Fact]
    public void Value_WholeRange_AgreesWithMathNet()
    {
        for (double x = -7; x <= 7; x += 0.00137)
            Assert.Equal(SpecialFunctions.Erf(x), ErrorFunction.Value(x), 2e-8);
    }

    // M. Abramowitz and I. A. Stegun, Handbook of Mathematical Functions, table 7.1.
    [Theory]
    [InlineData(0.0, 0.0)]
    [InlineData(0.5, 0.5204998778)]
    [InlineData(1.0, 0.8427007929)]
    [InlineData(1.5, 0.9661051465)]
    [InlineData(2.0, 0.9953222650)]
    [InlineData(double.PositiveInfinity, 1.0)]
    public void Value_HandbookArgument_GivesHandbookValue(double x, double handbook)
    {
        Assert.Equal(handbook, ErrorFunction.Value(x), 2e-8);
        Assert.Equal(-handbook, ErrorFunction.Value(-x), 2e-8);
    }

    [Fact]
    public void Value_NaN_StaysNaN() => Assert.True(double.IsNaN(ErrorFunction.Value(double.NaN)));
}
