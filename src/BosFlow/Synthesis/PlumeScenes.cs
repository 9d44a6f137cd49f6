using BosFlow.Optics;
using BosFlow.Speckle;

namespace BosFlow.Synthesis;

/// <summary>Columns of hot air of constant width, wholly in the picture from side to side, for checks of density and temperature.</summary>
/// <remarks>The half-width is more than five windows of 32 px in both, so that what is measured is not the resolution of the windows.</remarks>
public static class PlumeScenes
{
    private const int Width = 1120;
    private const int Height = 384;
    private const double DirectionDegrees = 80;

    /// <summary>A narrow column seen by the laboratory's camera: 12 mm half-width, 178 px.</summary>
    /// <param name="temperatureKelvin">Temperature on the axis, K.</param>
    /// <param name="flowOff">Number of flow-off frames.</param>
    /// <param name="flowOn">Number of frames with flow.</param>
    /// <param name="seed">Seed of pattern and noise.</param>
    public static SceneRecipe Laboratory(double temperatureKelvin, int flowOff, int flowOn, ulong seed) =>
        Column(ReferenceRigs.Laboratory, new SpeckleSettings { DotDiameterPixels = 3, DotsPerPixel = 0.05 }, 12e-3, temperatureKelvin, flowOff, flowOn, seed);

    /// <summary>The exhaust plume of a small engine seen by the camera on board: 55 mm half-width, 178 px.</summary>
    /// <param name="temperatureKelvin">Temperature on the axis, K.</param>
    /// <param name="flowOff">Number of flow-off frames.</param>
    /// <param name="flowOn">Number of frames with flow.</param>
    /// <param name="seed">Seed of pattern and noise.</param>
    /// <remarks>The dots are of 4 px: all displacements lie below a quarter of a pixel, where dots of 3 px are found 1.5 % too far moved (bias of interpolation) and dots of 4 px 0.4 %.</remarks>
    public static SceneRecipe Onboard(double temperatureKelvin, int flowOff, int flowOn, ulong seed) =>
        Column(ReferenceRigs.Onboard, new SpeckleSettings { DotDiameterPixels = 4, DotsPerPixel = 0.04 }, 55e-3, temperatureKelvin, flowOff, flowOn, seed);

    // Leaning a little, so that both components carry a signal and no column of nodes lies on the axis.
    private static SceneRecipe Column(RigGeometry rig, SpeckleSettings speckle, double halfWidth, double temperature, int flowOff, int flowOn, ulong seed) => new()
    {
        Width = Width,
        Height = Height,
        FrameCount = flowOff + flowOn,
        FlowOffCount = flowOff,
        Flow = new FlowRecipe.Jet((Width - 1) / 2.0, (Height - 1) / 2.0, DirectionDegrees, halfWidth, 0, temperature),
        Rig = rig,
        Speckle = speckle with { Seed = seed, MarginPixels = 16 },
        Sensor = new SensorSettings { NoisePercent = 1 },
        Seed = seed,
    };
}
