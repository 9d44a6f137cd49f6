using BosFlow.Displacement;
using BosFlow.Validation;

namespace BosFlow.Tests.Validation;

public sealed class LensRowsStudyTests
{
    [Fact]
    public void Run_LensAndRollingShutterAtOnce_MeetsTheRequiredErrors()
    {
        StudyResult result = LensRowsStudy.Run(new DisplacementSettings(), CancellationToken.None);

        string figures = string.Join('\n', result.Figures.Select(figure => FormattableString.Invariant($"{figure.Name}: {figure.Value:G4}")));
        Assert.True(result.Figures.All(figure => figure.Passes), figures);
        // Neither correction is an ornament: without the lens or without the rows the vectors miss by much more.
        Assert.All(result.Figures.Where(figure => figure.Name.Contains("not corrected", StringComparison.Ordinal) || figure.Name.Contains("read at once", StringComparison.Ordinal)), figure => Assert.True(figure.Value > 0.05, figures));
    }
}
