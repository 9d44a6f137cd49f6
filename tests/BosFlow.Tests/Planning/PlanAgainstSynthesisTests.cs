using BosFlow.Planning;
using BosFlow.Validation;

namespace BosFlow.Tests.Planning;

/// <summary>What a plan foretells is what the engine then measures on pictures of the planned board.</summary>
public sealed class PlanAgainstSynthesisTests
{
    public static TheoryData<string, PlanRequest> Rigs => new() { { "laboratory", PlanStudy.Laboratory }, { "onboard", PlanStudy.Onboard } };

    [Theory]
    [MemberData(nameof(Rigs))]
    public void Judge_OfARig_ForetellsDisplacementNoiseAndRatio(string place, PlanRequest request)
    {
        StudyResult study = PlanStudy.Run(place, request, 4, CancellationToken.None);

        Assert.All(study.Figures, figure => Assert.True(figure.Passes, $"{figure.Name}: {figure.Value:F3}"));
        Assert.Equal(3, study.Figures.Count(figure => figure.IsRequired));
    }
}
