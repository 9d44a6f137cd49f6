using BosFlow.Displacement;
using BosFlow.Speckle;
using BosFlow.Synthesis;
using BosFlow.Validation;

namespace BosFlow.Tests.Validation;

public sealed class IsolatedWindowsStudyTests
{
    [Fact]
    public void Run_DotsOf3Px_ComesNearTheBoundAndNotBelowIt()
    {
        StudyResult result = IsolatedWindowsStudy.Run([3], 6, new DisplacementSettings(), CancellationToken.None);

        // 360 errors: the ratio's own standard error is 4 %.
        Assert.Equal(8, result.Figures.Count);
        Assert.All(result.Figures.Where((_, i) => i % 4 < 3), figure => Assert.InRange(figure.Value, 0.93, 1.25));
        // Eight pictures make the reference: 0.75 by their noise alone.
        Assert.All(result.Figures.Where((_, i) => i % 4 == 3), figure => Assert.InRange(figure.Value, 0.7, 0.9));
    }

    [Theory]
    [InlineData(3, 2, 1.0087)]
    [InlineData(3, 5, 1.0370)]
    [InlineData(5, 5, 1.0190)]
    public void OfUnknownPattern_GaussianDots_IsTheIntegralOfKnappAndCarter(double dot, double noise, double expected)
    {
        // Evaluated apart from the program by SciPy's adaptive double integral (dblquad).
        var speckle = new SpeckleSettings { DotDiameterPixels = dot, DotsPerPixel = 0.63 / (dot * dot), ContrastFrom = 110.0 / 255, ContrastTo = 170.0 / 255 };

        Assert.Equal(expected, CramerRaoBound.OfUnknownPattern(speckle, new SensorSettings { NoisePercent = noise }), 1e-4);
    }
}
