namespace BosFlow.Synthesis;

/// <summary>A plane wave of displacement: (u, v) = (AmplitudeU, AmplitudeV) sin(2 pi s / wavelength + phase), s the distance along the wave's direction.</summary>
/// <param name="AmplitudeU">Amplitude to the right, px.</param>
/// <param name="AmplitudeV">Amplitude down, px.</param>
/// <param name="WavelengthPixels">Wavelength, px, greater than 0.</param>
/// <param name="DirectionDegrees">Direction in which the wave varies, degrees counter-clockwise as seen on the picture; 0 = to the right.</param>
/// <param name="PhaseDegrees">Phase at the pixel (0, 0), degrees.</param>
public sealed record SinusoidField(double AmplitudeU, double AmplitudeV, double WavelengthPixels, double DirectionDegrees = 0, double PhaseDegrees = 0) : IFlowField
{
    /// <inheritdoc/>
    public FlowSample At(double x, double y)
    {
        (double sine, double cosine) = Math.SinCos(double.DegreesToRadians(DirectionDegrees));
        // y runs down, counter-clockwise is as seen: the sine changes its sign.
        double along = (x * cosine) - (y * sine);
        double wave = Math.Sin((2 * Math.PI * along / WavelengthPixels) + double.DegreesToRadians(PhaseDegrees));
        return FlowSample.Prescribed(AmplitudeU * wave, AmplitudeV * wave);
    }
}
