namespace BosFlow.Synthesis;

/// <summary>Half of the picture's plane: the points whose way from a point on its edge has a positive part along a direction.</summary>
/// <param name="X">x of a point on the edge, px.</param>
/// <param name="Y">y of that point, px.</param>
/// <param name="IntoX">x of the unit vector square to the edge that points into the half plane, 1.</param>
/// <param name="IntoY">y (down) of that vector.</param>
internal readonly record struct HalfPlane(double X, double Y, double IntoX, double IntoY)
{
    /// <summary>Distance of a point from the edge, px; positive within.</summary>
    public double Depth((double X, double Y) point) => ((point.X - X) * IntoX) + ((point.Y - Y) * IntoY);

    /// <summary>The same half plane with its edge moved inwards.</summary>
    /// <param name="pixels">How far, px.</param>
    public HalfPlane Moved(double pixels) => this with { X = X + (pixels * IntoX), Y = Y + (pixels * IntoY) };
}
