namespace BosFlow.Registration;

/// <summary>Aligned frames on their way to one picture.</summary>
internal interface IFrameCombination
{
    /// <summary>Adds a frame, which is given up by the caller; NaN = pixel not recorded.</summary>
    void Add(float[] aligned);

    /// <summary>The picture; NaN where no frame recorded the pixel.</summary>
    float[] Combine();

    /// <summary>Number of frames in it.</summary>
    int FrameCount { get; }

    /// <summary>What the user should know of how it was combined; null = nothing.</summary>
    string? Warning { get; }
}
