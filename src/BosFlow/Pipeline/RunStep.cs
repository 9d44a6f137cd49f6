namespace BosFlow.Pipeline;

/// <summary>What a run is busy with.</summary>
public enum RunStep
{
    /// <summary>Making the reference picture.</summary>
    Reference,

    /// <summary>Measuring frames.</summary>
    Frames,

    /// <summary>Statistics, derived fields, maps and report.</summary>
    Summary,
}
