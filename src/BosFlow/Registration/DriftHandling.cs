namespace BosFlow.Registration;

/// <summary>What is done about a background that lies otherwise in later flow-off frames.</summary>
public enum DriftHandling
{
    /// <summary>It is taken out of every frame, in proportion to time between the stretches of flow-off frames before and after it.</summary>
    Remove,

    /// <summary>It is told only.</summary>
    Report,
}
