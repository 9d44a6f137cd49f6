using System.Numerics;

namespace BosFlow.Registration;

/// <summary>How well one readout time explains the shifts of rows by a steady vibration whose smooth spectrum is found along with it.</summary>
/// <remarks>
/// The shift of the view is taken for a Gaussian process: tones at equal steps of frequency, each with a variance of its own, drawn together with its neighbours'.
/// Every row of the reference has an unknown shift. The marginal likelihood of the samples is maximised over variances and noise by fixed-point steps
/// (D. J. C. MacKay 1992, doi 10.1162/neco.1992.4.3.415; formula from memory). Only the true readout makes the time within the frames and the time between them agree.
/// </remarks>
internal sealed class VibrationLikelihood
{
    // Neighbours that share a variance: three steps on either side follow lines and bands alike (tried on both).
    private const int Neighbours = 3;
    private const int Rounds = 10;
    private const double LeastVariance = 1e-9;  // px2: of a tone that is not there
    private const double LeastNoise = 2.5e-5;   // px2: 0.005 px, below which no row is known
    private const double ReferenceVariance = 900; // px2: a reference row may lie 30 px from rest

    private readonly RowShakeSamples samples;
    private readonly int tones;
    private readonly double step;
    private readonly int width;
    private readonly double[] design;
    private readonly double[] turned;
    private readonly double[] factor;
    private readonly double[] solved;

    /// <summary>Prepares the evaluation; an instance serves one thread.</summary>
    /// <param name="samples">The shifts.</param>
    /// <param name="highest">Highest frequency, per frame period.</param>
    public VibrationLikelihood(RowShakeSamples samples, double highest)
    {
        this.samples = samples;
        double span = samples.FrameTimes.Max() - samples.FrameTimes.Min() + 1;
        tones = Math.Max(2, (int)Math.Ceiling(span * highest));
        step = highest / tones;
        width = (2 * tones) + RowShakeSamples.RowCount;
        design = new double[samples.Count * width];
        turned = new double[design.Length];
        factor = new double[samples.Count * samples.Count];
        solved = new double[samples.Count * width];
    }

    /// <summary>Logarithm of the likelihood, up to a constant.</summary>
    /// <param name="readout">Readout time, frame periods.</param>
    public double Of(double readout)
    {
        Fill(readout);
        double[][] values = [[.. samples.U], [.. samples.V]];
        double[][] variances = [.. values.Select(Start)];
        double noise = 4 * LeastNoise;
        double logarithm = double.NegativeInfinity;
        for (int round = 0; round <= Rounds; round++)
        {
            logarithm = 0;
            double squares = 0;
            double freedom = 0;
            for (int component = 0; component < values.Length; component++)
            {
                if (Evaluate(values[component], variances[component], noise) is not { } found)
                    return double.NegativeInfinity;
                logarithm += found.Logarithm;
                squares += found.Squares;
                freedom += found.Freedom;
            }

            noise = Math.Max(LeastNoise, squares / Math.Max(1, freedom));
        }

        return logarithm;
    }

    private double[] Start(double[] values)
    {
        double mean = values.Average();
        double variance = values.Average(value => (value - mean) * (value - mean));
        double[] start = new double[width];
        Array.Fill(start, Math.Max(LeastVariance, variance / tones), 0, 2 * tones);
        Array.Fill(start, ReferenceVariance, 2 * tones, RowShakeSamples.RowCount);
        return start;
    }

    private void Fill(double readout)
    {
        Array.Clear(design);
        for (int i = 0; i < samples.Count; i++)
        {
            double time = samples.FrameTimes[i] + (readout * samples.Fractions[i]);
            Span<double> row = design.AsSpan(i * width, width);
            for (int tone = 0; tone < tones; tone++)
                (row[tones + tone], row[tone]) = Math.SinCos(2 * Math.PI * (tone + 0.5) * step * time);
            row[(2 * tones) + samples.RowNumbers[i]] = 1;
            for (int p = 0; p < width; p++)
                turned[(p * samples.Count) + i] = row[p];
        }
    }

    /// <summary>Likelihood at the variances given, which then take their next step.</summary>
    private (double Logarithm, double Squares, double Freedom)? Evaluate(double[] values, double[] variances, double noise)
    {
        int n = values.Length;
        Covariance(variances, noise);
        if (!SmallCholesky.Factor(factor, n))
            return null;
        double[] whitened = Whiten(values);
        double logarithm = 0;
        for (int i = 0; i < n; i++)
            logarithm -= (whitened[i] * whitened[i] / 2) + Math.Log(factor[(i * n) + i]);

        // Of each function: what the samples say of its amplitude, and how much of its variance they take away.
        double[] amplitudes = new double[width];
        double[] known = new double[width];
        for (int i = 0; i < n; i++)
        {
            for (int p = 0; p < width; p++)
            {
                double value = solved[(i * width) + p];
                amplitudes[p] += value * whitened[i];
                known[p] += value * value;
            }
        }

        double freedom = n;
        for (int p = 0; p < width; p++)
        {
            amplitudes[p] *= variances[p];
            known[p] *= variances[p];
            freedom -= known[p];
        }

        Next(variances, amplitudes, known);
        return (logarithm, Misfit(values, amplitudes), freedom);
    }

    private void Covariance(double[] variances, double noise)
    {
        int n = samples.Count;
        Array.Clear(factor);
        for (int i = 0; i < n; i++)
        {
            Span<double> row = factor.AsSpan(i * n, i + 1);
            for (int p = 0; p < width; p++)
                TakeAway(row, turned.AsSpan(p * n, i + 1), -variances[p] * design[(i * width) + p]);
            row[i] += noise;
        }
    }

    // Solves L z = values and L A = design, with A left in solved.
    private double[] Whiten(double[] values)
    {
        int n = values.Length;
        double[] whitened = [.. values];
        design.CopyTo(solved.AsSpan());
        for (int i = 0; i < n; i++)
        {
            Span<double> row = solved.AsSpan(i * width, width);
            for (int k = 0; k < i; k++)
            {
                double share = factor[(i * n) + k];
                whitened[i] -= share * whitened[k];
                TakeAway(row, solved.AsSpan(k * width, width), share);
            }

            double pivot = factor[(i * n) + i];
            whitened[i] /= pivot;
            for (int p = 0; p < width; p++)
                row[p] /= pivot;
        }

        return whitened;
    }

    // Element by element, so that the width of the machine's vectors changes no bit.
    private static void TakeAway(Span<double> from, ReadOnlySpan<double> what, double share)
    {
        int p = 0;
        for (; p + Vector<double>.Count <= from.Length; p += Vector<double>.Count)
            (new Vector<double>(from[p..]) - (new Vector<double>(what[p..]) * share)).CopyTo(from[p..]);
        for (; p < from.Length; p++)
            from[p] -= what[p] * share;
    }

    private void Next(double[] variances, double[] amplitudes, double[] known)
    {
        for (int tone = 0; tone < tones; tone++)
        {
            double squares = 0;
            double share = 0;
            for (int near = Math.Max(0, tone - Neighbours); near <= Math.Min(tones - 1, tone + Neighbours); near++)
            {
                squares += (amplitudes[near] * amplitudes[near]) + (amplitudes[tones + near] * amplitudes[tones + near]);
                share += known[near] + known[tones + near];
            }

            variances[tone] = variances[tones + tone] = Math.Max(LeastVariance, squares / Math.Max(share, LeastVariance));
        }
    }

    private double Misfit(double[] values, double[] amplitudes)
    {
        double squares = 0;
        for (int i = 0; i < values.Length; i++)
        {
            double rest = values[i];
            for (int p = 0; p < width; p++)
                rest -= design[(i * width) + p] * amplitudes[p];
            squares += rest * rest;
        }

        return squares;
    }
}
