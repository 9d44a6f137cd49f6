using BosFlow.Pipeline;

namespace BosFlow.Results.Report;

/// <summary>How the light varied over a run, in words.</summary>
public static class LightWords
{
    private const double Even = 0.005;

    /// <summary>The findings as lines of a table: what, value, what it means.</summary>
    /// <param name="light">The findings.</param>
    public static IEnumerable<IReadOnlyList<string>> Rows(LightVariation light)
    {
        ArgumentNullException.ThrowIfNull(light);
        yield return ["Level of the frames, of the reference's", Range(light), $"{Deviation(light)}Every window is matched with a gain and an offset of its own, so that light that changes as a whole costs nothing but contrast."];
        yield return ["Darkest part of a frame, of what it would be", double.IsFinite(light.LowestPart) ? $"{Percent(light.LowestPart)} in frame {light.LowestPartFrame}" : "unknown", "Parts are an eighth of the width by a sixth of the height, against the reference and the frame's own level. Far below 100 %: a shadow or the sun moved between reference and frame."];
        yield return ["Corners of the reference, of its middle", double.IsFinite(light.CornerLevel) ? Percent(light.CornerLevel) : "unknown", "Vignetting of the lens and uneven lighting."];
        yield return ["Vectors hidden by glare", Share(light.GlareFraction, light.LargestGlareFraction), "Left out, flagged as saturated."];
        yield return ["Vectors without contrast", Share(light.LowTextureFraction, light.LargestLowTextureFraction), "Left out, flagged as low texture: deep shade, a place without dots, or blur."];
    }

    /// <summary>The findings in one line.</summary>
    /// <param name="light">The findings.</param>
    public static string Line(LightVariation light)
    {
        ArgumentNullException.ThrowIfNull(light);
        return $"frames at {Range(light)} of the reference's level, darkest part at {Percent(light.LowestPart)}; glare hides {Percent(light.GlareFraction)} of the vectors, lack of contrast {Percent(light.LowTextureFraction)}";
    }

    private static string Range(LightVariation light) => !double.IsFinite(light.LowestGain)
        ? "unknown"
        : light.HighestGain - light.LowestGain < Even ? Percent(light.LowestGain) : $"{Percent(light.LowestGain)} to {Percent(light.HighestGain)}";

    private static string Deviation(LightVariation light) =>
        double.IsFinite(light.RelativeDeviation) ? $"Standard deviation over the frames {Percent(light.RelativeDeviation)}. " : string.Empty;

    private static string Share(double mean, double largest) => $"{Percent(mean)} in the mean, at most {Percent(largest)} of a frame";

    private static string Percent(double value) => double.IsFinite(value) ? FormattableString.Invariant($"{100 * value:0.0} %") : "unknown";
}
