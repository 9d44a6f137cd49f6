namespace BosFlow.Density;

/// <summary>Why a density is not a plain result: a bit mask; 0 means determined.</summary>
[Flags]
public enum DensityFlags : byte
{
    /// <summary>Determined from measured displacement and a known boundary value.</summary>
    None = 0,

    /// <summary>No displacement was measured that reaches this place; the value is NaN.</summary>
    NotMeasured = 1,

    /// <summary>The part of the field has no place of known density: the value is the difference to the part's mean, not a density.</summary>
    NotAnchored = 2,

    /// <summary>The density came out as zero or negative, which no gas has; kept as it is, without a temperature.</summary>
    NotPositive = 4,

    /// <summary>Rests on displacement bridged over a gap (replaced or missing vectors).</summary>
    Bridged = 8,

    /// <summary>The two sides of the axis contradict each other here by more than three standard uncertainties of their difference.</summary>
    Asymmetric = 16,
}
