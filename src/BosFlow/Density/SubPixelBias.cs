using System.Numerics;

namespace BosFlow.Density;

/// <summary>The systematic error that interpolation between pixels leaves in a mean displacement: a wave of the fraction of a pixel, less where shake spreads the fractions.</summary>
/// <param name="Pixels">Its amplitude for a single frame, px.</param>
/// <param name="PhaseU">Mean over the frames of exp(2 pi i m), m being the shift of the background to the right, px: 1 without shake, near 0 with much.</param>
/// <param name="PhaseV">The same for the shift down.</param>
/// <remarks>
/// A frame is interpolated where the background's motion m and the flow's displacement u have moved it, so that it reads m + u + b sin(2 pi (m + u)); of which the motion
/// fitted to the quiet part, m + b sin(2 pi m), is taken out. Averaged: b Im((exp(2 pi i u) - 1) mean exp(2 pi i m)). That the error is such a
/// wave: common practice, no source; docs/validation shows it. Derived otherwise.
/// </remarks>
public sealed record SubPixelBias(double Pixels, Complex PhaseU, Complex PhaseV)
{
    /// <summary>No such error.</summary>
    public static SubPixelBias None { get; } = new(0, Complex.One, Complex.One);

    /// <summary>Error of u, px.</summary>
    /// <param name="u">Displacement to the right, px.</param>
    public double OfU(double u) => Wave(u, PhaseU);

    /// <summary>Error of v, px.</summary>
    /// <param name="v">Displacement down, px.</param>
    public double OfV(double v) => Wave(v, PhaseV);

    private double Wave(double displacement, Complex phase) =>
        Pixels * ((Complex.FromPolarCoordinates(1, 2 * Math.PI * displacement) - 1) * phase).Imaginary;
}
