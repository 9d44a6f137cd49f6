namespace BosFlow.Density;

/// <summary>Whether the data are what the inversion of a round flow assumes.</summary>
internal static class RoundChecks
{
    private const double LargestContradiction = 2;
    private const double LargestAsymmetry = 0.3;
    private const double LargestEdgeShare = 0.05;
    private const double SignificantEdge = 3;

    // Beyond this the answer depends on the model of the rays more than on anything measured.
    private const double LargestCurvedShare = 0.1;

    /// <summary>The checks.</summary>
    public static IReadOnlyList<DataCheck> Of(UnitProfile[] profiles, AxisEstimate estimate, double noiseShare)
    {
        double[] differences =
        [
            .. from profile in profiles
               from i in Enumerable.Range(0, profile.Excess.Length)
               where profile.SigmaDifference[i] > 0
               select (profile.Right[i] - profile.Left[i]) / profile.SigmaDifference[i],
        ];
        double rms = differences.Length == 0 ? double.NaN : Math.Sqrt(differences.Average(value => value * value));
        double curved = profiles.Max(profile => profile.CurvedShare);
        return
        [
            new("Right half minus left half of the density, RMS in units of its standard uncertainty", rms, "1", "about 1, below 2", rms < LargestContradiction),
            new(
                "Difference of the displacement's two sides, RMS over RMS of the displacement", 100 * estimate.AsymmetryShare, "%",
                FormattableString.Invariant($"noise alone makes {100 * noiseShare:G2} %; below 30 % beyond it"), !IsAsymmetric(estimate, noiseShare)),
            new("Curvature of the rays (corrected): largest change of a deflection against a straight ray, over the largest deflection", 100 * curved, "%", "below 10 %", curved < LargestCurvedShare),
        ];
    }

    /// <summary>What the user should know of it.</summary>
    public static IEnumerable<string> Warnings(UnitProfile[] profiles, AxisEstimate estimate, double noiseShare)
    {
        UnitProfile[] open = [.. profiles.Where(profile => profile.EdgeShare > LargestEdgeShare && profile.EdgeSignificance > SignificantEdge)];
        if (open.Length > 0)
        {
            yield return FormattableString.Invariant(
                $"At {open.Length} of {profiles.Length} stations the flow reaches the edge of the measured field (displacement there up to {100 * open.Max(profile => profile.EdgeShare):F0} % of the largest): what lies beyond is taken as undisturbed, so that the density reads too near to that of the surroundings; film a wider field.");
        }

        if (IsAsymmetric(estimate, noiseShare))
            yield return FormattableString.Invariant($"The two sides of the axis differ by {100 * estimate.AsymmetryShare:F0} % of the displacement, where noise alone makes {100 * noiseShare:F0} %: the flow is not round, or the axis is wrong; take the density as an estimate.");
        if (noiseShare >= LargestAsymmetry)
            yield return FormattableString.Invariant($"Noise makes {100 * noiseShare:F0} % of the displacement: average more frames, or set inversion = \"smoothed\" under [flow].");
        if (profiles.Any(profile => profile.CurvedShare >= LargestCurvedShare))
            yield return "The rays are so strongly curved that the density depends on how their paths are modelled: take it as an estimate.";
    }

    private static bool IsAsymmetric(AxisEstimate estimate, double noiseShare) =>
        (estimate.AsymmetryShare * estimate.AsymmetryShare) - (noiseShare * noiseShare) > LargestAsymmetry * LargestAsymmetry;
}
