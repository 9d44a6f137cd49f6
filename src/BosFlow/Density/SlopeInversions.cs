using System.Collections.Concurrent;
using BosFlow.Numerics.Abel;

namespace BosFlow.Density;

/// <summary>The inversions of one kind for every number of radii, each made once. Safe to use from several threads.</summary>
internal sealed class SlopeInversions
{
    private readonly ConcurrentDictionary<int, SlopeInversion> made = new();

    /// <summary>The inversion for a number of radii.</summary>
    public SlopeInversion Of(int count) => made.GetOrAdd(count, n => new SlopeInversion(AbelOperators.CubicSlope(n).Matrix.ToArray(), n));
}
