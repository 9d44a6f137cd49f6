namespace BosFlow.Camera;

/// <summary>The family of a lens.</summary>
public enum LensKind
{
    /// <summary>Straight lines stay nearly straight: the pinhole with radial and tangential terms.</summary>
    Pinhole,

    /// <summary>The distance from the centre grows with the angle, not with its tangent: the equidistant projection with a polynomial.</summary>
    Fisheye,
}
