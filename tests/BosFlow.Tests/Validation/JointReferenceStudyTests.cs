using BosFlow.Displacement;
using BosFlow.Validation;

namespace BosFlow.Tests.Validation;

public sealed class JointReferenceStudyTests
{
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void Run_ShakenBurst_TakesTheBiasOfInterpolationOffAndTheNoiseDown(double noisePercent)
    {
        StudyResult result = JointReferenceStudy.Run(3, noisePercent, 0.002, 0.003, new DisplacementSettings(), CancellationToken.None);

        Assert.All(result.Figures, figure => Assert.True(figure.Passes, $"{figure.Name}: {figure.Value}"));
        Assert.True(Value("joint fit of 12 frames: total RMS error") < (noisePercent == 0 ? 0.8 : 1) * Value("mean of 12 frames: total RMS error"));

        double Value(string name) => result.Figures.Single(figure => figure.Name == name).Value;
    }
}
