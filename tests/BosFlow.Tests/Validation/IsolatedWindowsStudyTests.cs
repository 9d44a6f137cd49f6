using BosFlow.Displacement;
using BosFlow.Validation;

namespace BosFlow.Tests.Validation;

public sealed class IsolatedWindowsStudyTests
{
    [Fact]
    public void Run_DotsOf3Px_ComesNearTheBoundAndNotBelowIt()
    {
        StudyResult result = IsolatedWindowsStudy.Run([3], 6, new DisplacementSettings(), CancellationToken.None);

        // 360 errors: the ratio's own standard error is 4 %.
        Assert.Equal(4, result.Figures.Count);
        Assert.All(result.Figures.Where((_, i) => i % 2 == 0), figure => Assert.InRange(figure.Value, 0.93, 1.25));
        // Eight pictures make the reference: 0.75 by their noise alone.
        Assert.All(result.Figures.Where((_, i) => i % 2 == 1), figure => Assert.InRange(figure.Value, 0.7, 0.9));
    }
}
