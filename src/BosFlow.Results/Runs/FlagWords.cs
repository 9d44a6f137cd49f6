using BosFlow.Density;
using BosFlow.Displacement;

namespace BosFlow.Results.Runs;

/// <summary>The flags of a vector, and of a density, in words.</summary>
internal static class FlagWords
{
    /// <summary>One word for files, in the notation of CF flag_meanings.</summary>
    public static string Word(VectorFlags flag) => flag switch
    {
        VectorFlags.OutlierReplaced => "outlier_replaced",
        VectorFlags.LowCorrelation => "low_correlation",
        VectorFlags.Masked => "masked",
        VectorFlags.OutOfFrame => "out_of_frame",
        VectorFlags.NotConverged => "not_converged",
        VectorFlags.LowTexture => "low_texture",
        VectorFlags.Saturated => "saturated",
        _ => throw new ArgumentOutOfRangeException(nameof(flag), flag, "One flag at a time."),
    };

    /// <summary>One word for files, in the notation of CF flag_meanings.</summary>
    public static string Word(DensityFlags flag) => flag switch
    {
        DensityFlags.NotMeasured => "not_measured",
        DensityFlags.NotAnchored => "not_anchored",
        DensityFlags.NotPositive => "not_positive",
        DensityFlags.Bridged => "bridged",
        DensityFlags.Asymmetric => "asymmetric",
        _ => throw new ArgumentOutOfRangeException(nameof(flag), flag, "One flag at a time."),
    };
}
