using BosFlow.Displacement;
using BosFlow.Validation;

namespace BosFlow.Tests.Validation;

public sealed class QuadraticWindowsStudyTests
{
    [Fact]
    public void Run_FewWindows_MeetsWhatIsRequired()
    {
        var constant = new DisplacementSettings { SpacingPixels = 8, PredictorSmoothings = 1 };

        StudyResult result = QuadraticWindowsStudy.Run(8, constant, constant with { WindowPixels = 48, Shape = WindowShape.Quadratic }, CancellationToken.None);

        Assert.All(result.Figures, figure => Assert.True(figure.Passes, FormattableString.Invariant($"{figure.Name}: {figure.Value}")));
        Assert.Contains(result.Figures, figure => figure.AtMost == 0.65);

        // A top-hat window's mean has 0.9 at 3.99 sides; 64 windows know it to some percent.
        Assert.InRange(result.Figures[0].Value, 0.9 * 3.99 * 32, 1.1 * 3.99 * 32);
    }
}
