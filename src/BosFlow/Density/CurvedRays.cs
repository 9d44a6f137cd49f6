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
    /// <returns>n - n0; what had to be taken from the slope of each ray; the largest of it over the largest slope.</returns>
    public static (double[] Excess, double[] Correction, double Share) Invert(double[] slope, SlopeInversion inverse, double step, double ambientIndex)
    {
        double[] excess = inverse.Apply(slope);
        double[] correction = new double[slope.Length];
        double share = 0;
        for (int turn = 0; turn < MostTurns; turn++)
        {
            (correction, share) = Correction(new RoundRayTracer(excess, step, ambientIndex), slope.Length, step);
            double[] next = inverse.Apply([.. slope.Zip(correction, (measured, bend) => measured - bend)]);
            double change = next.Zip(excess, (a, b) => Math.Abs(a - b)).Max();
            excess = next;
            // What is left is the change of the next turn, smaller by the share.
            if (change * share <= Enough * excess.Max(Math.Abs))
                break;
        }

        return (excess, correction, share);
    }

    private static (double[] Correction, double Share) Correction(RoundRayTracer tracer, int rays, double step)
    {
        double[] correction = new double[rays];
        double largestCorrection = 0;
        double largestTurn = 0;
        for (int i = 0; i < rays; i++)
        {
            double straight = tracer.Turn(i * step, isCurved: false);
            correction[i] = tracer.Turn(i * step, isCurved: true) - straight;
            largestCorrection = Math.Max(largestCorrection, Math.Abs(correction[i]));
            largestTurn = Math.Max(largestTurn, Math.Abs(straight));
        }

        return (correction, largestTurn > 0 ? largestCorrection / largestTurn : 0);
    }
}
