using BosFlow.Camera;
using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Optics;
using BosFlow.Registration;
using BosFlow.Statistics;

namespace BosFlow.Pipeline;

/// <summary>What a whole run gave.</summary>
public sealed record RunSummary
{
    /// <summary>The effective case.</summary>
    public required ExperimentCase Case { get; init; }

    /// <summary>What is known of the footage.</summary>
    public required FootageInfo Footage { get; init; }

    /// <summary>The reference picture that everything was measured against.</summary>
    public required Reference Reference { get; init; }

    /// <summary>Time statistics of the displacement.</summary>
    public required FieldStatistics Statistics { get; init; }

    /// <summary>The factors from px to optical quantities; null where the case has no rig.</summary>
    public OpticalScale? Scale { get; init; }

    /// <summary>Scale of the printed board as it shows itself in the reference; null where none is described or it was not found.</summary>
    public BoardScale? BoardScale { get; init; }

    /// <summary>The dots of the reference, and what interpolation makes of displacements for them; null where it is not known.</summary>
    public SamplingFacts? Sampling { get; init; }

    /// <summary>Derived mean fields (deflection, index and density gradients) with their sigma; empty where the case has no rig.</summary>
    public IReadOnlyList<ScalarField> DerivedFields { get; init; } = [];

    /// <summary>Density, refractive index and temperature; null where the case asks for none or has no rig.</summary>
    public DensityResult? Density { get; init; }

    /// <summary>All frames asked for, in order, without their fields.</summary>
    public required IReadOnlyList<FrameRecord> Frames { get; init; }

    /// <summary>Everything the user should know of the run, in plain words, one sentence each.</summary>
    public IReadOnlyList<string> Warnings { get; init; } = [];
}
