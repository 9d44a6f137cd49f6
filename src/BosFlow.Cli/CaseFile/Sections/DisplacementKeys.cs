using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Toml;
using BosFlow.Displacement;

namespace BosFlow.Cli.CaseFile.Sections;

/// <summary>Keys of [displacement].</summary>
internal static class DisplacementKeys
{
    private const string Name = "displacement";
    private static readonly DisplacementSettings Standard = QualityPresets.Standard;

    public static readonly ChoiceKey<DisplacementSettings> Quality = new()
    {
        Section = Name,
        Name = "quality",
        Description = "fast for a first look, standard, or finest for the finest detail; sets all the keys below, and each of them overrides it.",
        Choices = [("fast", QualityPresets.Fast), ("standard", QualityPresets.Standard), ("finest", QualityPresets.Finest)],
        Default = TomlLiteral.Of("standard"),
    };

    public static readonly IntegerKey Window = new()
    {
        Section = Name,
        Name = "window_px",
        Description = "Side of the interrogation window: a larger one has less noise and smears finer detail; 48 for shape = \"quadratic\" unless this key says otherwise.",
        Minimum = 8,
        Maximum = 128,
        MultipleOf = 2,
        Default = TomlLiteral.Of(Standard.WindowPixels),
    };

    public static readonly ChoiceKey<WindowSizing> Windows = new()
    {
        Section = Name,
        Name = "windows",
        Description = "Whether all windows have the side window_px (fixed), or half of it where the displacement is so steep that the whole side smears it by more than noise explains (adaptive); adaptive for quality = \"finest\" where the other keys allow it, fixed for shape = \"quadratic\".",
        Choices = [("fixed", WindowSizing.Fixed), ("adaptive", WindowSizing.Adaptive)],
        Default = TomlLiteral.Of("fixed"),
    };

    public static readonly ChoiceKey<WindowShape> Shape = new()
    {
        Section = Name,
        Name = "shape",
        Description = "What is fitted to the displacement within a window in the last two passes: a shift (constant; where a mask cuts the window, with its first derivatives), a shift with its first derivatives (affine), or a polynomial of second degree (quadratic: with quality = \"finest\" finer detail at little more noise; not for shocks, where adaptive windows are better). Where dots or masks determine it badly, a lower degree is taken.",
        Choices = [("constant", WindowShape.Constant), ("affine", WindowShape.Affine), ("quadratic", WindowShape.Quadratic)],
        Default = TomlLiteral.Of("constant"),
    };

    public static readonly IntegerKey Spacing = new()
    {
        Section = Name,
        Name = "spacing_px",
        Description = "Distance between neighbouring vectors; half the window is usual.",
        Minimum = 2,
        Maximum = 128,
        Default = TomlLiteral.Of(Standard.SpacingPixels),
    };

    public static readonly IntegerKey CoarseWindow = new()
    {
        Section = Name,
        Name = "coarse_window_px",
        Description = "Side of the window of the first pass; shifts up to a quarter of it are found.",
        Minimum = 32,
        Maximum = 128,
        Only = [32, 64, 128],
        Default = TomlLiteral.Of(Standard.CoarseWindowPixels),
    };

    public static readonly ChoiceKey<CoarseOverlap> CoarseOverlap = new()
    {
        Section = Name,
        Name = "coarse_overlap",
        Description = "How far neighbouring windows of the first pass overlap: by half of their side, or by a quarter (faster; the standard of quality = \"fast\").",
        Choices = [("half", Displacement.CoarseOverlap.Half), ("quarter", Displacement.CoarseOverlap.Quarter)],
        Default = TomlLiteral.Of("half"),
    };

    public static readonly IntegerKey Passes = new()
    {
        Section = Name,
        Name = "passes",
        Description = "Passes with image deformation after the first one; where registration.readout_ms is given at least 5 unless this key says otherwise, since windows follow the shake from row to row only after some passes.",
        Minimum = 1,
        Maximum = 8,
        Default = TomlLiteral.Of(Standard.Passes),
    };

    public static readonly ChoiceKey<Sampling> LastPass = new()
    {
        Section = Name,
        Name = "last_pass",
        Description = "Where the last pass deforms the frame anew: everywhere, or only where the displacement has moved by more than 0.2 px since it was deformed last (where-moved: faster; the standard of quality = \"fast\"); passes before the last always do the latter.",
        Choices = [("everywhere", Sampling.Everywhere), ("where-moved", Sampling.WhereMoved)],
        Default = TomlLiteral.Of("everywhere"),
    };

    public static readonly ChoiceKey<WindowWeighting> Weighting = new()
    {
        Section = Name,
        Name = "weighting",
        Description = "Weight of the pixels within a window: the same for all, or gaussian (finer detail, more noise).",
        Choices = [("top-hat", WindowWeighting.TopHat), ("gaussian", WindowWeighting.Gaussian)],
        Default = TomlLiteral.Of("top-hat"),
    };

    public static readonly ChoiceKey<SubPixelMethod> SubPixel = new()
    {
        Section = Name,
        Name = "sub_pixel",
        Description = "How the fraction of a pixel is found: least-squares matching of the grey levels, or a three-point Gaussian fit of the correlation peak.",
        Choices = [("least-squares", SubPixelMethod.LeastSquares), ("three-point-gaussian", SubPixelMethod.ThreePointGaussian)],
        Default = TomlLiteral.Of("least-squares"),
    };

    public static readonly ChoiceKey<InterpolationOrder> Interpolation = new()
    {
        Section = Name,
        Name = "interpolation",
        Description = "B-spline that interpolates between pixels of the deformed picture.",
        Choices = [("cubic", InterpolationOrder.Cubic), ("quintic", InterpolationOrder.Quintic)],
        Default = TomlLiteral.Of("quintic"),
    };

    public static readonly IntegerKey PredictorSmoothings = new()
    {
        Section = Name,
        Name = "predictor_smoothings",
        Description = "Smoothings of the predictor between passes; the result itself is never smoothed.",
        Minimum = 0,
        Maximum = 16,
        Default = TomlLiteral.Of(Standard.PredictorSmoothings),
    };

    public static readonly NumberKey LowestCorrelation = new()
    {
        Section = Name,
        Name = "lowest_correlation",
        Description = "Vectors whose correlation is below this are flagged.",
        Minimum = 0,
        Maximum = 0.99,
        Default = TomlLiteral.Of(Standard.LowestCorrelation),
    };

    public static readonly NumberKey OutlierThreshold = new()
    {
        Section = Name,
        Name = "outlier_threshold",
        Description = "Threshold of the normalised-median test for outliers.",
        Minimum = 0,
        AboveMinimum = true,
        Maximum = 100,
        Default = TomlLiteral.Of(Standard.OutlierThreshold),
    };

    public static readonly NumberKey OutlierNoise = new()
    {
        Section = Name,
        Name = "outlier_noise_px",
        Description = "Noise level that the normalised-median test allows for.",
        Minimum = 0,
        AboveMinimum = true,
        Maximum = 10,
        Default = TomlLiteral.Of(Standard.OutlierNoisePixels),
    };

    public static readonly BooleanKey ReplaceOutliers = new()
    {
        Section = Name,
        Name = "replace_outliers",
        Description = "Whether an outlier gets the median of its neighbours or no value; it is flagged in both cases.",
        Default = TomlLiteral.Of(Standard.ReplaceOutliers),
    };

    public static readonly CaseSection Section = new(
        Name,
        "How the displacement of the pattern is measured.",
        [
            Quality, Window, Windows, Shape, Spacing, CoarseWindow, CoarseOverlap, Passes, LastPass, Weighting, SubPixel, Interpolation, PredictorSmoothings,
            LowestCorrelation, OutlierThreshold, OutlierNoise, ReplaceOutliers,
        ]);
}
