namespace BosFlow.Optics;

/// <summary>What a sinusoidal motion does to a picture during exposure and readout.</summary>
/// <remarks>
/// Motion A sin(2 pi F t). Its mean over an exposure t_e has the amplitude A |sin(pi F t_e) / (pi F t_e)|; within a time T it moves by at most
/// 2 A sin(pi F T) while F T is below a half, and by 2 A beyond (derived). A standard deviation s has the amplitude s sqrt(2).
/// </remarks>
public static class ExposureMotion
{
    /// <summary>Part of the amplitude that the mean over the exposure keeps, |sin(pi F t) / (pi F t)|.</summary>
    /// <param name="hertz">F, Hz, 0 or more.</param>
    /// <param name="exposureSeconds">t_e, s, 0 or more.</param>
    /// <returns>0 to 1.</returns>
    public static double Attenuation(double hertz, double exposureSeconds) => Math.Abs(FrequencyResponse.Box(hertz * exposureSeconds));

    /// <summary>Largest motion within a time.</summary>
    /// <param name="amplitude">A, any unit.</param>
    /// <param name="hertz">F, Hz, 0 or more.</param>
    /// <param name="seconds">The time: exposure for smear, readout for the skew between the first and the last row, s.</param>
    /// <returns>In the unit of the amplitude.</returns>
    public static double LargestMotion(double amplitude, double hertz, double seconds) =>
        2 * amplitude * Math.Sin(Math.PI * Math.Min(0.5, hertz * seconds));

    /// <summary>Longest time within which the motion stays below a limit.</summary>
    /// <param name="amplitude">A, greater than 0.</param>
    /// <param name="hertz">F, Hz, greater than 0.</param>
    /// <param name="limit">Largest motion allowed, in the unit of the amplitude.</param>
    /// <returns>s; null where the motion never exceeds the limit.</returns>
    public static double? LongestTime(double amplitude, double hertz, double limit) =>
        2 * amplitude <= limit ? null : Math.Asin(limit / (2 * amplitude)) / (Math.PI * hertz);
}
