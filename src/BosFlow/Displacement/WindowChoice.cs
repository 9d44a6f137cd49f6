namespace BosFlow.Displacement;

/// <summary>What a pass may do about the sides of its windows.</summary>
internal enum WindowChoice
{
    /// <summary>Whole windows everywhere; what was chosen before is forgotten.</summary>
    Whole,

    /// <summary>Half windows where they were chosen before, and where they are found to be needed now.</summary>
    Choose,

    /// <summary>Half windows where they were chosen before, and nowhere else.</summary>
    Keep,
}
