using BosFlow.Optics;

namespace BosFlow.Planning;

/// <summary>What a rig will do, as far as formulas tell. SI units and px; a value that cannot be told is null.</summary>
public sealed record PlanResult
{
    /// <summary>What was judged.</summary>
    public required PlanRequest Request { get; init; }

    /// <summary>Scales and factors of the rig.</summary>
    public required OpticalScale Scale { get; init; }

    /// <summary>Width and height seen in the plane of the board, m.</summary>
    public required (double Width, double Height) ViewAtBoard { get; init; }

    /// <summary>Width and height seen in the plane of the flow, m.</summary>
    public required (double Width, double Height) ViewAtFlow { get; init; }

    /// <summary>Magnification of the board, 1.</summary>
    public required double Magnification { get; init; }

    /// <summary>Displacement for a deflection of 1 rad, px.</summary>
    public required double PixelsPerRadian { get; init; }

    /// <summary>Diameter of the geometric blur of a ray bundle in the flow plane, m.</summary>
    public required double FlowBlurMetres { get; init; }

    /// <summary>Circle of confusion of something in the flow plane, m on the sensor.</summary>
    public required double FlowConfusionMetres { get; init; }

    /// <summary>Circle of confusion of the board, m on the sensor: 0 where the lens is focused on it.</summary>
    public required double BoardConfusionMetres { get; init; }

    /// <summary>Nearest and farthest distance that is sharp to 1 px, m from the lens; the farthest may be infinite.</summary>
    public required (double Near, double Far) DepthOfField { get; init; }

    /// <summary>Distance on which the lens is focused, m.</summary>
    public required double FocusMetres { get; init; }

    /// <summary>Diameter of the diffraction spot (first dark ring), m on the sensor.</summary>
    public required double DiffractionSpotMetres { get; init; }

    /// <summary>Diameter of a dot on the paper that the plan works with, m.</summary>
    public required double DotMetres { get; init; }

    /// <summary>Diameter of a dot whose image has 2 px and one whose image has 3 px, blur included, m; null where blur alone is larger.</summary>
    public required (double? Small, double? Large) DotRangeMetres { get; init; }

    /// <summary>Diameter that is recommended, m: of those whose image has 2.4 to 3.2 px the one with the least expected error; behind a larger blur one to 1.3 times the blur.</summary>
    public required double RecommendedDotMetres { get; init; }

    /// <summary>e^-2 diameter of a dot's image, blur included, px.</summary>
    public required double DotImagePixels { get; init; }

    /// <summary>Mean number of dots in a window.</summary>
    public required double DotsPerWindow { get; init; }

    /// <summary>Wavelength in the flow plane of which windows, blur and pixel leave a half, m.</summary>
    public required double HalfResponseWavelengthMetres { get; init; }

    /// <summary>Wavelength in the flow plane of which windows, blur and pixel leave nine tenths, m.</summary>
    public required double NineTenthsResponseWavelengthMetres { get; init; }

    /// <summary>Expected error of a displacement in one frame, px (1 sigma): noise and interpolation between pixels, over all fractions of a pixel.</summary>
    public required double NoisePixels { get; init; }

    /// <summary>Part of <see cref="NoisePixels"/> that the windows' noise alone makes (Cramer-Rao bound), px.</summary>
    public required double NoiseBoundPixels { get; init; }

    /// <summary>Expected standard deviation of the mean displacement over all frames, px.</summary>
    public required double MeanNoisePixels { get; init; }

    /// <summary>Smallest path-integrated density gradient that is detected in one frame (3 standard deviations), kg m-3.</summary>
    public required double SmallestGradient { get; init; }

    /// <summary>Smallest path-integrated density gradient that is detected in the mean, kg m-3.</summary>
    public required double SmallestMeanGradient { get; init; }

    /// <summary>Smallest temperature difference on the axis of a round plume that is detected in one frame, K; null where no heat is enough, or flow and surroundings are not gases of about one known molar mass.</summary>
    public required double? SmallestPlumeKelvin { get; init; }

    /// <summary>Smallest temperature difference of a round plume that is detected in the mean, K.</summary>
    public required double? SmallestMeanPlumeKelvin { get; init; }

    /// <summary>The expected flow in numbers; null where none was given.</summary>
    public required FlowPrediction? Flow { get; init; }

    /// <summary>Largest smear of the picture during the exposure by vibration, px; null where exposure or vibration is not known.</summary>
    public required double? VibrationSmearPixels { get; init; }

    /// <summary>Part of the amplitude of the vibration that a mean over the exposure leaves, 1.</summary>
    public required double? VibrationAttenuation { get; init; }

    /// <summary>Standard deviation of the picture's motion by vibration, px.</summary>
    public required double? VibrationPixels { get; init; }

    /// <summary>Largest difference of that motion between the first and the last row of one frame, px; null where readout or vibration is not known.</summary>
    public required double? RowSkewPixels { get; init; }

    /// <summary>Periods of the vibration within one readout, 1.</summary>
    public required double? PeriodsPerReadout { get; init; }

    /// <summary>Recommended f-number.</summary>
    public required double RecommendedFNumber { get; init; }

    /// <summary>Longest recommended exposure, s: vibration smears no more than a tenth of a dot's image; null where vibration is not known or never does.</summary>
    public required double? RecommendedExposureSeconds { get; init; }

    /// <summary>Longest exposure that freezes the flow's eddies, s; null where its speed is not known. Not part of the advice: the mean does not need it.</summary>
    public required double? FreezingExposureSeconds { get; init; }

    /// <summary>Recommended focus distance, m: the board.</summary>
    public required double RecommendedFocusMetres { get; init; }

    /// <summary>Stops of light that aperture and exposure as recommended give more (positive) or less than those asked for; null where the exposure is not known.</summary>
    public required double? LightChangeStops { get; init; }

    /// <summary>What should be changed, most important first.</summary>
    public required IReadOnlyList<PlanWarning> Warnings { get; init; }
}
