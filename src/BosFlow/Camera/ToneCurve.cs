namespace BosFlow.Camera;

/// <summary>Between grey level and light, both as part of full scale.</summary>
/// <remarks>Source of the curve: IEC 61966-2-1 (sRGB), constants from memory.</remarks>
public static class ToneCurve
{
    private const double Knee = 0.04045;
    private const double Slope = 12.92;
    private const double Offset = 0.055;
    private const double Power = 2.4;

    /// <summary>Light that gives a grey level.</summary>
    /// <param name="level">Grey level, 0 to 1.</param>
    /// <param name="tones">The picture's curve.</param>
    public static double ToLight(double level, PictureTones tones)
    {
        if (tones == PictureTones.Linear)
            return level;
        return level <= Knee ? level / Slope : Math.Pow((level + Offset) / (1 + Offset), Power);
    }

    /// <summary>Grey level that light gives.</summary>
    /// <param name="light">Light, 0 to 1.</param>
    /// <param name="tones">The picture's curve.</param>
    public static double ToLevel(double light, PictureTones tones)
    {
        if (tones == PictureTones.Linear)
            return light;
        return light <= Knee / Slope ? light * Slope : ((1 + Offset) * Math.Pow(light, 1 / Power)) - Offset;
    }
}
