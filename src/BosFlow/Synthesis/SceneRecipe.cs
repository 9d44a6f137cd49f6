using BosFlow.Camera;
using BosFlow.Optics;
using BosFlow.Speckle;

namespace BosFlow.Synthesis;

/// <summary>Everything that makes a synthetic scene; the same recipe gives the same pictures, bit for bit.</summary>
public sealed record SceneRecipe
{
    /// <summary>Width of the pictures, px, 32 to 16384.</summary>
    public required int Width { get; init; }

    /// <summary>Height of the pictures, px, 32 to 16384.</summary>
    public required int Height { get; init; }

    /// <summary>Number of frames, at least 1.</summary>
    public required int FrameCount { get; init; }

    /// <summary>Number of flow-off frames at the start, 0 to FrameCount.</summary>
    public int FlowOffCount { get; init; }

    /// <summary>Number of flow-off frames at the end, 0 to FrameCount - FlowOffCount.</summary>
    public int FlowOffAfterCount { get; init; }

    /// <summary>Frame rate, Hz, greater than 0.</summary>
    public double FrameRateHz { get; init; } = 60;

    /// <summary>Dot pattern.</summary>
    public SpeckleSettings Speckle { get; init; } = new();

    /// <summary>Dots of a printed board as the camera sees them (<see cref="PrintedPattern"/>) in place of drawn ones, reaching beyond the picture by the margin of <see cref="Speckle"/>, which still gives their shape; null = drawn.</summary>
    public IReadOnlyList<Dot>? Printed { get; init; }

    /// <summary>Light to digital numbers.</summary>
    public SensorSettings Sensor { get; init; } = new();

    /// <summary>Motion of the view; null = a camera at rest.</summary>
    public ShakeSettings? Shake { get; init; }

    /// <summary>Slow drift of the board against the camera; null = none.</summary>
    public DriftSettings? Drift { get; init; }

    /// <summary>The lens, for pictures of this size; null = an ideal one.</summary>
    public LensParameters? Lens { get; init; }

    /// <summary>Vibration of the camera, beside or in place of the slow motion; null = none.</summary>
    public VibrationSettings? Vibration { get; init; }

    /// <summary>Readout and exposure of the rows; null = a picture of one instant.</summary>
    public ShutterSettings? Shutter { get; init; }

    /// <summary>Uneven light; null = even and steady.</summary>
    public LightSettings? Light { get; init; }

    /// <summary>Electronic stabilisation of the camera; null = off.</summary>
    public StabilisationSettings? Stabilisation { get; init; }

    /// <summary>Lost and repeated frames; null = none.</summary>
    public FrameOrder? Order { get; init; }

    /// <summary>Distances and camera; null where the flow is prescribed in px.</summary>
    public RigGeometry? Rig { get; init; }

    /// <summary>Gas.</summary>
    public GasSettings Gas { get; init; } = new();

    /// <summary>The flow of every frame after the flow-off frames.</summary>
    public required FlowRecipe Flow { get; init; }

    /// <summary>Seed of motion and noise; the pattern has its own.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Everything that is wrong with this recipe's own numbers, one sentence each; empty where nothing is.</summary>
    public IReadOnlyList<string> Problems()
    {
        var problems = new List<string>();
        if (Width is < 32 or > 16384 || Height is < 32 or > 16384)
            problems.Add($"The picture is {Width} x {Height} px; each side must be 32 to 16384 px.");
        if (FrameCount is < 1 or > 1_000_000)
            problems.Add($"The number of frames is {FrameCount}; it must be 1 to 1000000.");
        if (FlowOffCount < 0 || FlowOffCount > FrameCount)
            problems.Add($"The number of flow-off frames is {FlowOffCount}; it must be 0 to the number of frames, {FrameCount}.");
        if (FlowOffAfterCount < 0 || FlowOffAfterCount > FrameCount - FlowOffCount)
            problems.Add($"The number of flow-off frames at the end is {FlowOffAfterCount}; it must be 0 to the number of frames after the first {FlowOffCount}, {FrameCount - FlowOffCount}.");
        if (!(FrameRateHz is > 0 and <= 1e6))
            problems.Add(FormattableString.Invariant($"The frame rate is {FrameRateHz} Hz; it must be greater than 0 and at most 1000000 Hz."));
        problems.AddRange(Speckle.Problems());
        problems.AddRange(Sensor.Problems());
        problems.AddRange(Shake?.Problems() ?? []);
        problems.AddRange(Drift?.Problems() ?? []);
        problems.AddRange(Vibration?.Problems() ?? []);
        if (Lens is not null && (Lens.Width != Width || Lens.Height != Height))
            problems.Add($"The lens holds for pictures of {Lens.Width} x {Lens.Height} px and the scene has {Width} x {Height} px; give both the same size.");
        if (Lens is not null && Stabilisation is not null)
            problems.Add("A stabilised picture is cut out of a larger one, so that its lens has no fixed middle; leave the lens or the stabilisation out.");
        problems.AddRange(Light?.Problems() ?? []);
        problems.AddRange(Stabilisation?.Problems() ?? []);
        problems.AddRange(Order?.Problems() ?? []);
        if (FrameRateHz > 0)
            problems.AddRange(Shutter?.Problems(FrameRateHz) ?? []);
        return problems;
    }
}
