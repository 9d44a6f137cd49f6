namespace BosFlow.Triage;

/// <summary>What one tile of a picture shows.</summary>
/// <param name="X">Column of its centre, px.</param>
/// <param name="Y">Row of its centre, px.</param>
/// <param name="DotPixels">e^-2 diameter of a dot's image, px: mean of the two axes; NaN where the tile has no pattern.</param>
/// <param name="LongVariance">Variance of a dot's image along the axis in which it is longest, px2.</param>
/// <param name="ShortVariance">The same along the other axis, px2.</param>
/// <param name="VarianceX">The same along rows, px2.</param>
/// <param name="VarianceY">The same along columns, px2.</param>
/// <param name="Contrast">0.5th to 99.5th percentile of the grey levels, share of white.</param>
/// <param name="DotsPerPixel">Dots counted for each pixel.</param>
public sealed record TileReading(
    double X, double Y, double DotPixels, double LongVariance, double ShortVariance, double VarianceX, double VarianceY, double Contrast, double DotsPerPixel)
{
    /// <summary>Whether the tile shows a pattern.</summary>
    public bool HasPattern => double.IsFinite(DotPixels);
}
