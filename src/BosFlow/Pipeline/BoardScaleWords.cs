using BosFlow.Camera;

namespace BosFlow.Pipeline;

/// <summary>The scale of a printed board in words.</summary>
public static class BoardScaleWords
{
    private const double LeastStatedMillimetres = 1e-6;

    /// <summary>The scale with its standard uncertainty, rounded to two digits of it.</summary>
    /// <param name="scale">The scale.</param>
    public static string Value(BoardScale scale)
    {
        ArgumentNullException.ThrowIfNull(scale);
        double sigma = Math.Max(LeastStatedMillimetres, scale.MetresPerPixelSigma * 1e3);
        int digits = Math.Clamp(1 - (int)Math.Floor(Math.Log10(sigma)), 0, 9);
        string format = "F" + digits.ToString(System.Globalization.CultureInfo.InvariantCulture);
        string Text(double value) => value.ToString(format, System.Globalization.CultureInfo.InvariantCulture);
        return $"{Text(scale.MetresPerPixel * 1e3)} ± {Text(sigma)} mm/px";
    }

    /// <summary>What it rests on.</summary>
    /// <param name="scale">The scale.</param>
    public static string Basis(BoardScale scale)
    {
        ArgumentNullException.ThrowIfNull(scale);
        string dots = scale.DotPatches > 0 ? $"dots at {scale.DotPatches} places" : "no dots";
        return FormattableString.Invariant($"{scale.Fiducials} fiducials, {dots}; fitted to {scale.RmsPixels:0.00} px");
    }
}
