namespace BosFlow.Density;

/// <summary>Corrects the inversion of straight rays for the curvature of the real ones.</summary>
/// <remarks>
/// The measured turn of a ray belongs to its curved path, the inversion assumes a straight one. With the profile found, both are computed for every ray; the difference is
/// taken from the measured slope and the inversion repeated. Each turn shrinks the remaining error by the factor that separates the two results, which is of
/// the order of a hundredth in strong laboratory flows.
/// </remarks>
internal static class CurvedRays
{
    // Below this change, relative to the largest excess, another turn would change nothing that matters.
    private const double Enough = 1e-5;
    private const int MostTurns = 6;

    /// <summary>Inverts a slope with the rays' curvature.</summary>
    /// <param name="slope">Measured slope of the projection, n0 times the turn of each ray.</param>
    /// <param name="inverse">The inversion for straight rays.</param>
    /// <param name="step">Distance of the radii, m.</param>
    /// <param name="ambientIndex">n0, 1.</param>
    /// <returns>n - n0, and the largest difference of the turns over the largest turn.</returns>
    public static (double[] Excess, double Share) Invert(double[] slope, SlopeInversion inverse, double step, double ambientIndex)
    {
        double[] excess = inverse.Apply(slope);
        double share = 0;
        for (int turn = 0; turn < MostTurns; turn++)
        {
            var tracer = new RoundRayTracer(excess, step, ambientIndex);
            double[] corrected = new double[slope.Length];
            double largestDifference = 0;
            double largestTurn = 0;
            for (int i = 0; i < slope.Length; i++)
            {
                double straight = tracer.Turn(i * step, isCurved: false);
                double difference = tracer.Turn(i * step, isCurved: true) - straight;
                corrected[i] = slope[i] - difference;
                largestDifference = Math.Max(largestDifference, Math.Abs(difference));
                largestTurn = Math.Max(largestTurn, Math.Abs(straight));
            }

            share = largestTurn > 0 ? largestDifference / largestTurn : 0;
            double[] next = inverse.Apply(corrected);
            double change = next.Zip(excess, (a, b) => Math.Abs(a - b)).Max();
            excess = next;
            if (change <= Enough * excess.Max(Math.Abs))
                break;
        }

        return (excess, share);
    }
}
