namespace BosFlow.TestKit;

/// <summary>A disc found in a rendered page.</summary>
/// <param name="X">Its centre of ink, px from the left edge of the page.</param>
/// <param name="Y">Its centre of ink, px from the upper edge of the page.</param>
/// <param name="Area">Its area: the sum of the ink of its pixels, px2.</param>
public readonly record struct FoundDisc(double X, double Y, double Area)
{
    /// <summary>Diameter of a disc of this area, px.</summary>
    public double Diameter => 2 * Math.Sqrt(Area / Math.PI);
}
