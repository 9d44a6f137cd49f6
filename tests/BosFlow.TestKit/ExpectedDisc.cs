namespace BosFlow.TestKit;

/// <summary>A disc that a page should show.</summary>
/// <param name="X">Its centre, mm from the left edge of the page.</param>
/// <param name="Y">Its centre, mm from the upper edge of the page.</param>
/// <param name="Diameter">mm.</param>
public readonly record struct ExpectedDisc(double X, double Y, double Diameter);
