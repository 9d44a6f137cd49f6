using BosFlow.Numerics.Spectral;

namespace BosFlow.Displacement;

/// <summary>Structure factor of discs thrown at random that keep a gap.</summary>
/// <remarks>
/// S = 1 / (1 + c ((1 - w) 2 J1(2 pi g k) / (2 pi g k) + w (2 J1(pi g k) / (pi g k))^2)), g the least distance of centres (1.1 diameters as boards are made, less where they would not fit), phi the part of the area that discs of diameter g
/// cover. Form: a direct correlation of finite reach, of the step and the overlap of two discs; its strength c = ((1 + phi) / (1 - phi)^3 - 1) (1.05 - phi / 2) is that of hard discs by scaled-particle theory
/// (H. Reiss, H. L. Frisch and J. L. Lebowitz 1959, from memory) but for the last factor, which with w = 0.7 phi was fitted to boards of coverage 0.1 to 0.45: within 0.07 of their S.
/// </remarks>
internal readonly struct DotStructure
{
    private const double FullestPacking = 0.495;
    private readonly double gap;
    private readonly double overlap;
    private readonly double strength;

    public DotStructure(double disc, double coverage)
    {
        double share = Math.Max(1, Math.Min(1.1, Math.Sqrt(FullestPacking / coverage)));
        double packing = share * share * coverage;
        gap = share * disc;
        overlap = 0.7 * packing;
        strength = (((1 + packing) / Math.Pow(1 - packing, 3)) - 1) * (1.05 - (packing / 2));
    }

    public double At(double frequency)
    {
        double near = DiscTransform.Value(gap * frequency);
        return 1 / (1 + (strength * (((1 - overlap) * DiscTransform.Value(2 * gap * frequency)) + (overlap * near * near))));
    }
}
