namespace BosFlow.Footage;

/// <summary>How the light of a frame differs from that of the reference, by mean grey levels over the same measurable pixels.</summary>
/// <param name="Gain">Mean level of the frame over that of the reference, 1; NaN where nothing can be compared.</param>
/// <param name="LowestShare">The same in the part of the picture that lost most, over <paramref name="Gain"/>, 1: below 1 where a shadow lies that the reference does not have.</param>
/// <param name="HighestShare">The same in the part that gained most, 1.</param>
public sealed record LightComparison(double Gain, double LowestShare, double HighestShare)
{
    /// <summary>Parts of the picture across.</summary>
    public const int Across = 8;

    /// <summary>Parts of the picture down.</summary>
    public const int Down = 6;

    /// <summary>Nothing is known.</summary>
    public static LightComparison Unknown { get; } = new(double.NaN, double.NaN, double.NaN);
}
