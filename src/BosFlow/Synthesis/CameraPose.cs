using BosFlow.Registration;

namespace BosFlow.Synthesis;

/// <summary>How the view lies at one moment against the view at rest: turned and stretched about the picture's centre, then shifted.</summary>
/// <param name="ShiftX">Shift to the right, px.</param>
/// <param name="ShiftY">Shift down, px.</param>
/// <param name="Degrees">Rotation, degrees counter-clockwise as seen on the picture.</param>
/// <param name="Scale">Magnification, 1.</param>
public readonly record struct CameraPose(double ShiftX, double ShiftY, double Degrees, double Scale)
{
    /// <summary>The view at rest.</summary>
    public static CameraPose Rest { get; } = new(0, 0, 0, 1);

    /// <summary>Two small motions at once: shifts and angles add, magnifications multiply.</summary>
    /// <param name="other">The other motion.</param>
    public CameraPose With(CameraPose other) => new(ShiftX + other.ShiftX, ShiftY + other.ShiftY, Degrees + other.Degrees, Scale * other.Scale);

    /// <summary>Where a point of the view at rest is seen.</summary>
    /// <param name="x">Column from the picture's centre, px.</param>
    /// <param name="y">Row from the picture's centre, px.</param>
    /// <returns>Column and row from the picture's centre, px.</returns>
    public (double X, double Y) Move(double x, double y)
    {
        (double u, double v) = Turn(x, y);
        return (u + ShiftX, v + ShiftY);
    }

    /// <summary>The point of the view at rest that is seen at a place: the inverse of <see cref="Move"/>.</summary>
    /// <param name="x">Column from the picture's centre, px.</param>
    /// <param name="y">Row from the picture's centre, px.</param>
    /// <returns>Column and row from the picture's centre, px.</returns>
    public (double X, double Y) MoveBack(double x, double y) =>
        (this with { Degrees = -Degrees, Scale = 1 / Scale }).Turn(x - ShiftX, y - ShiftY);

    /// <summary>How a vector of the view at rest is seen: turned and stretched.</summary>
    /// <param name="u">To the right, px.</param>
    /// <param name="v">Down, px.</param>
    /// <returns>To the right and down, px.</returns>
    public (double U, double V) Turn(double u, double v)
    {
        (double sine, double cosine) = Math.SinCos(double.DegreesToRadians(Degrees));
        return (Scale * ((cosine * u) + (sine * v)), Scale * ((cosine * v) - (sine * u)));
    }

    /// <summary>The same motion in pixels of a picture.</summary>
    /// <param name="centreX">Column of the picture's centre, px.</param>
    /// <param name="centreY">Row of the picture's centre, px.</param>
    public PlanarMotion ToMotion(double centreX, double centreY) => CameraShake.Similarity(centreX, centreY, ShiftX, ShiftY, Degrees, Scale);
}
