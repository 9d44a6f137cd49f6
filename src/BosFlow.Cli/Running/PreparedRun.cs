using BosFlow.Camera;
using BosFlow.Cli.CaseFile;
using BosFlow.Footage;
using BosFlow.Optics;
using BosFlow.Registration;
using BosFlow.Results.Runs;

namespace BosFlow.Cli.Running;

/// <summary>A run of which everything has been checked that can be checked before work; nothing has been written.</summary>
public sealed record PreparedRun
{
    /// <summary>What was asked for.</summary>
    public required RunSettings Settings { get; init; }

    /// <summary>The case.</summary>
    public required LoadedCase Case { get; init; }

    /// <summary>Absolute path of the folder for the results.</summary>
    public required string OutputFolder { get; init; }

    /// <summary>The opened footage.</summary>
    public required IFootage Footage { get; init; }

    /// <summary>Numbers of the frames to measure, ascending, at least one.</summary>
    public required IReadOnlyList<int> FrameIndices { get; init; }

    /// <summary>Notices files that change from now on.</summary>
    public required SourceWatch Sources { get; init; }

    /// <summary>Where the reference comes from.</summary>
    public required ReferenceSource Reference { get; init; }

    /// <summary>Factors from px to optical quantities; null where the case has no rig.</summary>
    public OpticalScale? Scale { get; init; }

    /// <summary>Scale of the printed board as it shows itself in the reference; null where no board is described or no two of its fiducials are found.</summary>
    public BoardScale? BoardScale { get; init; }

    /// <summary>What the results depend on, with the hash of every input.</summary>
    public required RunIdentity Identity { get; init; }
}
