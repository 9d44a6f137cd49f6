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
        Assert.All(result.Figures, figure => Assert.InRange(figure.Value, 0.93, 1.25));
        Assert.Equal(2, result.Figures.Count);
    }
}
