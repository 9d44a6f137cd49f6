using BosFlow.Displacement;
using BosFlow.Synthesis;

namespace BosFlow.Validation;

/// <summary>Errors at an oblique front, over which the displacement jumps by 1.9 px within 8 px.</summary>
/// <param name="Slope">Slope of measured on true u within one window of the front.</param>
/// <param name="Rms">RMS error of a component over the whole picture, px.</param>
/// <param name="Beside">The same beyond two windows of the front, px.</param>
/// <param name="CoverageOneSigma">Share of errors within one sigma, within one window of the front.</param>
/// <param name="CoverageTwoSigma">The same within two sigma.</param>
internal sealed record FrontErrors(double Slope, double Rms, double Beside, double CoverageOneSigma, double CoverageTwoSigma)
{
    private const double FarWindows = 2;

    /// <summary>Measures them.</summary>
    /// <param name="width">Width of the picture, px; the front goes through its middle.</param>
    /// <param name="height">Height of the picture, px.</param>
    /// <param name="measure">Fields that the engine measures of a flow.</param>
    /// <param name="windowPixels">What "one window" is, px.</param>
    public static FrontErrors Of(int width, int height, Func<IFlowField, IEnumerable<VectorField>> measure, int windowPixels)
    {
        var front = new ShockFront(width / 2.0, height / 2.0, 1.9 * Math.Cos(0.6), -1.9 * Math.Sin(0.6), 8);
        ErrorStatistics all = new(), beside = new(), near = new();
        var slopes = new List<double>();
        foreach (VectorField field in measure(front))
        {
            Func<int, (double U, double V)> truth = FieldErrors.Truth(field, front);
            double Far(int node) => Math.Abs(front.Distance(field.Grid.X(node % field.Grid.Columns), field.Grid.Y(node / field.Grid.Columns)));
            FieldErrors.Add(all, field, truth);
            FieldErrors.Add(beside, field, truth, node => Far(node) > FarWindows * windowPixels);
            FieldErrors.Add(near, field, truth, node => Far(node) < windowPixels);
            int[] around = [.. FieldErrors.Measured(field, node => Far(node) < windowPixels)];
            slopes.Add(LineFit.Of([.. around.Select(node => (float)truth(node).U)], [.. around.Select(node => field.U[node])]).Slope);
        }

        return new FrontErrors(slopes.Average(), all.Rms, beside.Rms, near.CoverageOneSigma, near.CoverageTwoSigma);
    }
}
