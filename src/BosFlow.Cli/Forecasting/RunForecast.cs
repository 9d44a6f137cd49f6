namespace BosFlow.Cli.Forecasting;

/// <summary>What a run is expected to need, from a few frames that were really measured.</summary>
public sealed record RunForecast
{
    // How far the pace of a machine drifts in a night: heat, other users. Experience, no source.
    private const double Drift = 0.1;

    /// <summary>Frames still to be measured.</summary>
    public required int FramesToMeasure { get; init; }

    /// <summary>Frames that were measured for the forecast.</summary>
    public required int FramesTimed { get; init; }

    /// <summary>Those of them that could not be measured, with the reason of the first; null where all could.</summary>
    public string? Failures { get; init; }

    /// <summary>Frames measured side by side.</summary>
    public required int Threads { get; init; }

    /// <summary>Time between two finished frames, reading and writing included, s.</summary>
    public required double SecondsPerFrame { get; init; }

    /// <summary>Its standard uncertainty, s.</summary>
    public required double SigmaSecondsPerFrame { get; init; }

    /// <summary>Time for the reference picture, summary, maps and report, s.</summary>
    public required double OtherSeconds { get; init; }

    /// <summary>Size of a frame's file, bytes.</summary>
    public required long FrameBytes { get; init; }

    /// <summary>Size of everything else, bytes.</summary>
    public required long OtherBytes { get; init; }

    /// <summary>Time expected, s.</summary>
    public double Seconds => (FramesToMeasure * SecondsPerFrame) + OtherSeconds;

    /// <summary>Its standard uncertainty, s; the drift of the machine included.</summary>
    public double SigmaSeconds => double.Hypot(FramesToMeasure * SigmaSecondsPerFrame, Drift * Seconds);

    /// <summary>Room that will be written, bytes.</summary>
    public long Bytes => (FramesToMeasure * FrameBytes) + OtherBytes;
}
