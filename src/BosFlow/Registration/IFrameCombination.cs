using BosFlow.Numerics.Interpolation;

namespace BosFlow.Registration;

/// <summary>Aligned frames on their way to one picture.</summary>
internal interface IFrameCombination
{
    /// <summary>Adds a frame, which is given up by the caller.</summary>
    void Add(AlignedFrame frame);

    /// <summary>The picture; NaN where no frame recorded the pixel.</summary>
    float[] Combine();

    /// <summary>Number of frames in it.</summary>
    int FrameCount { get; }

    /// <summary>The picture more finely than its pixels, once it is combined; null where it is not known so.</summary>
    FineSpline? Underlying { get; }

    /// <summary>What the user should know of how it was combined; null = nothing.</summary>
    string? Warning { get; }
}
