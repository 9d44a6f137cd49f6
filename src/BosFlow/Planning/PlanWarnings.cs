namespace BosFlow.Planning;

/// <summary>What should be changed in a plan.</summary>
internal static class PlanWarnings
{
    /// <summary>All warnings, most important first.</summary>
    public static IReadOnlyList<PlanWarning> Of(PlanResult result, PlanContext context, PlanPoint point, PlanAdvice advice) => [];
}
