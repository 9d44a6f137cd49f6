namespace BosFlow.Cli.Doctor;

/// <summary>What a check of the machine found.</summary>
internal enum CheckState
{
    /// <summary>There, or good enough.</summary>
    Good,

    /// <summary>Not there, and BosFlow works without it, less well.</summary>
    CouldBeBetter,

    /// <summary>Not there, and BosFlow cannot work without it.</summary>
    Missing,
}
