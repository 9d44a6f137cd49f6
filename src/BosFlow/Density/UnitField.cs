namespace BosFlow.Density;

/// <summary>What an inversion makes of the displacement, before any conversion that is the same at all nodes. Arrays have Grid.Count entries.</summary>
/// <param name="Values">Planar and path-integrated: integral of the displacement over the picture, px2. Axisymmetric: n - n0, 1. NaN where not known.</param>
/// <param name="Sigma">Its standard uncertainty from the displacement.</param>
/// <param name="Flags">What holds at each node.</param>
internal sealed record UnitField(double[] Values, double[] Sigma, DensityFlags[] Flags);
