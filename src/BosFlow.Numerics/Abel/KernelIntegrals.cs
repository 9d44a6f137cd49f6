namespace BosFlow.Numerics.Abel;

/// <summary>Integrals of 1, r and r^2 over sqrt(r^2 - y^2) in closed form.</summary>
internal static class KernelIntegrals
{
    /// <summary>Integrals from one radius to another, both at y or beyond; y = 0 needs a start above 0 for the first of them.</summary>
    public static (double Constant, double Linear, double Square) Over(double from, double to, double y)
    {
        double rootFrom = Math.Sqrt((from - y) * (from + y)), rootTo = Math.Sqrt((to - y) * (to + y));
        double logarithm = from + rootFrom > 0 ? Math.Log((to + rootTo) / (from + rootFrom)) : 0;
        return (logarithm, rootTo - rootFrom, ((to * rootTo) - (from * rootFrom) + (y * y * logarithm)) / 2);
    }
}
