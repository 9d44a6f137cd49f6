namespace BosFlow.Registration;

/// <summary>
/// Where a point of the reference picture is found in a frame when only camera and board moved:
/// the projective map [x' y' w]^T = H [x y 1]^T, followed by division by w. Pixels of the reference in, pixels of the frame out.
/// </summary>
/// <param name="H11">Row 1, column 1.</param>
/// <param name="H12">Row 1, column 2.</param>
/// <param name="H13">Row 1, column 3, px.</param>
/// <param name="H21">Row 2, column 1.</param>
/// <param name="H22">Row 2, column 2.</param>
/// <param name="H23">Row 2, column 3, px.</param>
/// <param name="H31">Row 3, column 1, 1/px.</param>
/// <param name="H32">Row 3, column 2, 1/px.</param>
public sealed record PlanarMotion(double H11, double H12, double H13, double H21, double H22, double H23, double H31, double H32) : IPictureMotion
{
    /// <summary>Nothing moved.</summary>
    public static PlanarMotion Identity { get; } = new(1, 0, 0, 0, 1, 0, 0, 0);

    /// <summary>A pure shift.</summary>
    /// <param name="u">Shift to the right, px.</param>
    /// <param name="v">Shift down, px.</param>
    public static PlanarMotion Shift(double u, double v) => new(1, 0, u, 0, 1, v, 0, 0);

    /// <inheritdoc/>
    PlanarMotion IPictureMotion.Planar => this;

    /// <inheritdoc/>
    public (double U, double V) DisplacementAt(double x, double y)
    {
        double w = (H31 * x) + (H32 * y) + 1;
        return ((((H11 * x) + (H12 * y) + H13) / w) - x, (((H21 * x) + (H22 * y) + H23) / w) - y);
    }
}
