using BosFlow.Displacement;
using BosFlow.Statistics;

namespace BosFlow.Pipeline;

/// <summary>Tells of displacements that are drawn towards whole pixels.</summary>
internal static class LockingWarning
{
    private const string Cure = "print larger dots (bosflow plan tells their size), go closer, or close the aperture until diffraction blurs them to 2.5 px.";

    /// <summary>Warnings of a run; none where dots are large enough and the fractions of the displacements are spread.</summary>
    /// <param name="dotPixels">Diameter of the dots in the reference, px; NaN where not known.</param>
    /// <param name="mean">Mean displacement of the run.</param>
    public static IEnumerable<string> Of(double dotPixels, FieldStatistics mean)
    {
        if (dotPixels < PeakLocking.SmallestDotPixels)
            yield return FormattableString.Invariant($"The dots of the reference are {dotPixels:0.0} px wide: such small dots draw displacements towards whole pixels (peak locking), by hundredths of a pixel that sigma holds only in part; {Cure}");
        double strength = Math.Max(Or(PeakLocking.Strength(mean.MeanU)), Or(PeakLocking.Strength(mean.MeanV)));
        if (strength > PeakLocking.LockedStrength)
            yield return FormattableString.Invariant($"The fractions of the mean displacements crowd at whole pixels (mean cosine {strength:0.00}, without peak locking 0): displacements are wrong by up to {strength / Math.PI:0.00} px, which sigma does not hold; {Cure}");
    }

    private static double Or(double strength) => double.IsNaN(strength) ? 0 : strength;
}
