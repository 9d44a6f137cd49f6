using BosFlow.Displacement;
using BosFlow.Validation;

namespace BosFlow.Tests.Validation;

public sealed class LensStudyTests
{
    [Fact]
    public void Run_KnownLenses_MeetsTheRequiredErrors()
    {
        StudyResult result = LensStudy.Run(new DisplacementSettings(), CancellationToken.None);

        Assert.All(result.Figures, figure => Assert.True(figure.Passes, $"{figure.Name}: {figure.Value} {figure.Unit}"));
        // The correction is no ornament: without it the same vectors miss by more than ten times as much.
        Assert.All(result.Figures.Where(figure => !figure.IsRequired), figure => Assert.True(figure.Value > 0.1, $"{figure.Name}: {figure.Value}"));
    }
}
