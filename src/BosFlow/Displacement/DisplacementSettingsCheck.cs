using System.Globalization;

namespace BosFlow.Displacement;

/// <summary>Ranges of <see cref="DisplacementSettings"/>.</summary>
public static class DisplacementSettingsCheck
{
    private const int BlocksPerWindow = 4;
    private const int SmallestBlock = 4;

    /// <summary>Why windows cannot be adaptive with the other settings; null where they can, or are not.</summary>
    /// <param name="settings">The settings.</param>
    public static string? AdaptiveProblem(DisplacementSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        bool works = settings.Windows != WindowSizing.Adaptive || (settings.Shape != WindowShape.Quadratic && settings.Weighting == WindowWeighting.TopHat && settings.SubPixel == SubPixelMethod.LeastSquares
            && settings.WindowPixels % (BlocksPerWindow * SmallestBlock) == 0 && settings.SpacingPixels % SmallestBlock == 0);
        return works ? null
            : "displacement.windows = \"adaptive\" needs shape = \"constant\" or \"affine\", weighting = \"top-hat\", sub_pixel = \"least-squares\", a window_px that 16 divides and a spacing_px that 4 divides; change what differs, or set windows = \"fixed\".";
    }

    /// <summary>Why the shape of windows does not go with the other settings; null where it does.</summary>
    /// <param name="settings">The settings.</param>
    public static string? ShapeProblem(DisplacementSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        bool works = settings.Shape == WindowShape.Constant || (settings.Weighting == WindowWeighting.TopHat && settings.SubPixel == SubPixelMethod.LeastSquares
            && settings.WindowPixels >= BlocksPerWindow * SmallestBlock && settings.WindowPixels % (2 * SmallestBlock) == 0 && settings.SpacingPixels % SmallestBlock == 0);
        return works ? null
            : $"displacement.shape = \"{(settings.Shape == WindowShape.Affine ? "affine" : "quadratic")}\" needs weighting = \"top-hat\", sub_pixel = \"least-squares\", a window_px of 16 or more that 8 divides and a spacing_px that 4 divides; change what differs, or set shape = \"constant\".";
    }

    /// <summary>Lists everything that is wrong with the settings.</summary>
    /// <param name="settings">The settings.</param>
    /// <returns>One sentence a problem; empty where all is well.</returns>
    public static IReadOnlyList<string> Problems(DisplacementSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        var problems = new List<string>();
        Require(settings.WindowPixels is >= 8 and <= 128 && settings.WindowPixels % 2 == 0, "window_px", settings.WindowPixels, "an even number from 8 to 128");
        Require(settings.SpacingPixels is >= 2 and <= 128, "spacing_px", settings.SpacingPixels, "2 to 128");
        Require(settings.CoarseWindowPixels is 32 or 64 or 128, "coarse_window_px", settings.CoarseWindowPixels, "32, 64 or 128");
        Require(settings.Passes is >= 1 and <= 8, "passes", settings.Passes, "1 to 8");
        Require(settings.PredictorSmoothings is >= 0 and <= 16, "predictor_smoothings", settings.PredictorSmoothings, "0 to 16");
        Require(settings.LowestCorrelation is >= 0 and < 1, "lowest_correlation", settings.LowestCorrelation, "0 up to but not including 1");
        Require(settings.OutlierThreshold > 0, "outlier_threshold", settings.OutlierThreshold, "greater than 0");
        Require(settings.OutlierNoisePixels > 0, "outlier_noise_px", settings.OutlierNoisePixels, "greater than 0");
        if (AdaptiveProblem(settings) is { } problem)
            problems.Add(problem);
        if (ShapeProblem(settings) is { } ofShape)
            problems.Add(ofShape);
        return problems;

        void Require(bool good, string key, double value, string range)
        {
            if (!good)
                problems.Add(string.Create(CultureInfo.InvariantCulture, $"[displacement] {key} = {value} is out of range: {range}."));
        }
    }
}
