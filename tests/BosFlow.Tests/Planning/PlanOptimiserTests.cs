using BosFlow.Camera;
using BosFlow.Planning;
using BosFlow.Synthesis;

namespace BosFlow.Tests.Planning;

/// <summary>The search for the best rig.</summary>
public sealed class PlanOptimiserTests
{
    private static PlanRequest Request => new()
    {
        Rig = ReferenceRigs.Onboard,
        Camera = new CameraFacts { PictureWidth = 1920, PictureHeight = 1080 },
        Flow = new ExpectedFlow.Plume(30e-3, 600, null),
    };

    private static PlanLimits Limits => new()
    {
        LongestBoardDistanceMetres = 1.2,
        ShortestLensToFlowMetres = 0.2,
        ShortestFlowToBackgroundMetres = 0.1,
        LargestBoardWidthMetres = 0.8,
        FocalLengthsMetres = [3e-3, 6e-3, 12e-3],
        FNumbers = [2.5, 4, 8],
    };

    [Fact]
    public void Find_WithinLimits_KeepsEveryLimit()
    {
        PlanOptimum optimum = PlanOptimiser.Find(Request, Limits);

        Assert.NotEmpty(optimum.Front);
        Assert.All(optimum.Front.Append(optimum.Best!), one =>
        {
            double a = one.Request.Rig.LensToFlowMetres;
            double d = one.Request.Rig.FlowToBackgroundMetres;
            Assert.True(a >= 0.2 && d >= 0.1 && a + d <= 1.2001 && one.BoardWidthMetres <= 0.8);
            Assert.Contains(one.Request.Rig.FNumber!.Value, Limits.FNumbers);
        });
    }

    [Fact]
    public void Find_FrontMembers_AreNotBettered()
    {
        IReadOnlyList<PlanCandidate> front = PlanOptimiser.Find(Request, Limits).Front;

        Assert.DoesNotContain(front, one => front.Any(other => other.SignalToNoise > 1.05 * one.SignalToNoise && 1.05 * other.ResolutionMetres < one.ResolutionMetres && 1.05 * other.BoardWidthMetres < one.BoardWidthMetres));
    }

    [Fact]
    public void Find_BestInFull_AgreesWithTheSearch()
    {
        PlanCandidate best = PlanOptimiser.Find(Request, Limits).Best!;

        PlanResult plan = Planner.Judge(best.Request);

        Assert.Equal(plan.Flow!.SignalToNoise, best.SignalToNoise, 1e-9 * best.SignalToNoise);
        Assert.Equal(plan.HalfResponseWavelengthMetres, best.ResolutionMetres, 1e-9 * best.ResolutionMetres);
    }

    [Fact]
    public void Find_WhereNothingFits_NamesTheLimit()
    {
        PlanOptimum optimum = PlanOptimiser.Find(Request, Limits with { LeastViewWidthMetres = 0.75, LargestBoardWidthMetres = 0.3 });

        Assert.Empty(optimum.Front);
        Assert.Null(optimum.Best);
        Assert.Contains(optimum.Obstacles, sentence => sentence.Contains("view", StringComparison.Ordinal) || sentence.Contains("board", StringComparison.Ordinal));
    }

    [Fact]
    public void Find_LimitsThatContradict_AreNamed()
    {
        ConfigurationException problem = Assert.Throws<ConfigurationException>(() => PlanOptimiser.Find(Request, Limits with { ShortestFlowToBackgroundMetres = 1.1 }));

        Assert.Contains("no room", Assert.Single(problem.Problems), StringComparison.Ordinal);
    }

    [Fact]
    public void Find_Again_IsTheSame()
    {
        PlanOptimum first = PlanOptimiser.Find(Request, Limits);
        PlanOptimum second = PlanOptimiser.Find(Request, Limits);

        Assert.Equal(first.Front.Select(one => one.SignalToNoise), second.Front.Select(one => one.SignalToNoise));
    }
}
