namespace BosFlow.TestKit;

/// <summary>Tolerances shared by the tests, each with its reason. A tolerance of one case stays beside that case.</summary>
public static class Tolerances
{
    /// <summary>Relative error of a float kernel against its double-precision twin, scaled by the sum of absolute products: worst of many seeds is about 3e-7 for windows up to 64 x 64.</summary>
    public const double SingleKernel = 1e-6;

    /// <summary>Relative error of double-precision arithmetic of a few thousand steps against another order of the same steps: about 4000 times the rounding unit 1.1e-16, with a factor of two to spare.</summary>
    public const double DoubleKernel = 1e-12;

    /// <summary>Bias of the displacement allowed for dots of 3 px in 32 x 32 windows, px.</summary>
    public const double UniformShiftBiasPixels = 0.005;

    /// <summary>Total RMS error of the displacement allowed for the same scene without noise, px.</summary>
    public const double UniformShiftRmsPixels = 0.006;

    /// <summary>Total RMS error of the displacement allowed for the same scene with noise of 2 % of the grey range, px.</summary>
    public const double UniformShiftNoisyRmsPixels = 0.012;

    /// <summary>RMS error of a path-integrated density gradient, as a share of its peak, allowed for the hot-plume scene.</summary>
    public const double PlumeRmsShareOfPeak = 0.03;

    /// <summary>How far the regression slope of a measured gradient against its truth may be from 1.</summary>
    public const double SlopeFromOne = 0.03;

    /// <summary>How much larger the noise floor may be with camera motion than without.</summary>
    public const double NoiseFloorWithMotion = 1.15;

    /// <summary>Number of standard errors that the mean of seeded random draws may be from its expected value: 4 is passed wrongly once in 16 000 independent checks, and the seeds are fixed.</summary>
    public const double StandardErrors = 4;
}
