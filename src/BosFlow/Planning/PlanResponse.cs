using BosFlow.Displacement;
using BosFlow.Optics;

namespace BosFlow.Planning;

/// <summary>What windows, aperture and pixel leave of a flow.</summary>
internal static class PlanResponse
{
    private const double Shortest = 0.5;
    private const double Longest = 1e-5;
    private const double Growth = 1.1;

    /// <summary>Part of the largest deflection that is measured, 0 to about 1.</summary>
    public static double Of(PlanContext context, FlowOptics flow, DisplacementSettings settings, double flowScale, double flowBlur)
    {
        double pixelsPerSize = flow.SizeMetres / flowScale;
        double discsPerSize = flowBlur / flow.SizeMetres;
        return flow.Profile.LargestAfter(
            k => At(context, k / pixelsPerSize) * FrequencyResponse.Disc(k * discsPerSize),
            discsPerSize + (settings.WindowPixels / pixelsPerSize));
    }

    /// <summary>Largest slope behind the aperture alone, deflections for each size.</summary>
    public static double LargestSlope(FlowOptics flow, double flowScale, double flowBlur) =>
        Math.Min(flow.Profile.LargestSlope, flow.SizeMetres / Math.Sqrt((flowScale * flowScale) + (flowBlur * flowBlur)));

    /// <summary>Longest wave in the flow plane of which no more than a part is left, m.</summary>
    public static double Wavelength(PlanContext context, double flowScale, double flowBlur, double part)
    {
        double Left(double frequency) => At(context, frequency) * FrequencyResponse.Disc(frequency * flowBlur / flowScale);
        double high = Longest;
        while (high < Shortest && Left(high) > part)
            high *= Growth;
        double low = high / Growth;
        for (int i = 0; i < 30; i++)
        {
            double middle = (low + high) / 2;
            if (Left(middle) > part)
                low = middle;
            else
                high = middle;
        }

        return flowScale * 2 / (low + high);
    }

    /// <summary>Windows and pixel at a frequency in 1/px.</summary>
    private static double At(PlanContext context, double frequency) =>
        frequency > Shortest ? 0 : context.Engine.At(frequency) * FrequencyResponse.Box(frequency);
}
