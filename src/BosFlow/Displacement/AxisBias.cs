namespace BosFlow.Displacement;

/// <summary>How large the wave of the fraction of a pixel is that interpolation leaves in a displacement along one axis, from the spectrum of the very reference.</summary>
/// <remarks>
/// The amplitude of <see cref="PatternSpectrum"/>, integral of P F d (H(w - 2 pi) - H(w + 2 pi)) over integral of P F d^2, along one axis: P the fitted power of the pattern above the line and the measured one below it, F the filter of the derivatives, d the derivative's
/// and H the interpolation's response.
/// </remarks>
internal static class AxisBias
{
    private const int StepsToNyquist = 64;
    private const int Steps = 154;
    private static readonly double[] OfCubic = Table(3);
    private static readonly double[] OfQuintic = Table(5);
    private static readonly double[] Derivatives = [.. Enumerable.Range(0, (AxisPower.Length / 2) + 1).Select(k => PixelSpectrum.Derivative(AxisPower.Frequency(k) / (2 * Math.PI)))];

    /// <summary>Amplitude: error = amplitude times sin(2 pi u), px.</summary>
    /// <param name="measured">Power along the axis.</param>
    /// <param name="pattern">Its fit.</param>
    /// <param name="taps">Filter of the derivatives along the axis.</param>
    /// <param name="order">Interpolation.</param>
    public static double Amplitude(AxisPower measured, SampledPattern pattern, ReadOnlySpan<float> taps, InterpolationOrder order)
    {
        double[] table = order == InterpolationOrder.Cubic ? OfCubic : OfQuintic;
        double wrong = 0, right = 0;
        for (int k = 0; k < Steps; k++)
            wrong += pattern.PowerAt(Frequency(k)) * GradientFilter.Response(taps, Frequency(k)) * table[k];

        int last = measured.Power.Length - 1;
        for (int k = 0; k <= last; k++)
        {
            double w = AxisPower.Frequency(k), derivative = Derivatives[k];
            right += (measured.Power[k] - pattern.Noise) * GradientFilter.Response(taps, w) * derivative * derivative;
        }

        return right > 0 ? wrong / StepsToNyquist / (right / last) : 0;
    }

    // Up to 2.4 times the highest frequency of the pixels.
    private static double Frequency(int k) => (k + 0.5) * Math.PI / StepsToNyquist;

    // d (H(w - 2 pi) - H(w + 2 pi)).
    private static double[] Table(int splineOrder) => [.. Enumerable.Range(0, Steps).Select(k =>
    {
        double x = Frequency(k) / (2 * Math.PI);
        return PixelSpectrum.Derivative(x) * (PixelSpectrum.Cardinal(splineOrder, x, -1) - PixelSpectrum.Cardinal(splineOrder, x, 1));
    })];
}
