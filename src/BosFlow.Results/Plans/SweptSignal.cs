using BosFlow.Planning;

namespace BosFlow.Results.Plans;

/// <summary>What a sweep shows of a plan: of the expected flow, or of a deflection of 1 mrad where none is expected.</summary>
internal static class SweptSignal
{
    private const double OneMilliradian = 1e-3;

    public static double Displacement(PlanResult plan) => plan.Flow?.MeasuredPixels ?? plan.PixelsPerRadian * OneMilliradian;

    public static double Ratio(PlanResult plan) => plan.Flow?.SignalToNoise ?? Displacement(plan) / plan.NoisePixels;

    public static string Subject(PlanResult plan) => plan.Flow is null ? "a deflection of 1 mrad" : "the expected flow";
}
