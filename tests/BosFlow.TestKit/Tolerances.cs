namespace BosFlow.TestKit;

/// <summary>Tolerances shared by the tests, each with its reason. A tolerance of one case stays beside that case.</summary>
public static class Tolerances
{
    /// <summary>Relative error of a float kernel against its double-precision twin, scaled by the sum of absolute products: worst of many seeds is about 3e-7 for windows up to 64 x 64.</summary>
    public const double SingleKernel = 1e-6;
}
