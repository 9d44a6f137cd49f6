namespace BosFlow.Footage;

/// <summary>What is known of the footage before its frames are read.</summary>
public sealed record FootageInfo
{
    /// <summary>Width of every frame as it is delivered (after rotation), px.</summary>
    public required int Width { get; init; }

    /// <summary>Height of every frame as it is delivered (after rotation), px.</summary>
    public required int Height { get; init; }

    /// <summary>Time of each frame since the first, s; its length is the number of frames. NaN where no time is known.</summary>
    public required IReadOnlyList<double> TimesSeconds { get; init; }

    /// <summary>The files the frames come from, absolute paths, in order; hashed into the provenance.</summary>
    public required IReadOnlyList<string> Files { get; init; }

    /// <summary>One line for the report: kind, codec, bit depth, decoder and its version.</summary>
    public required string Description { get; init; }

    /// <summary>What the user should know of this footage (damaged tail, 8 bits decoded of 10), one sentence each.</summary>
    public IReadOnlyList<string> Warnings { get; init; } = [];

    /// <summary>Number of frames.</summary>
    public int FrameCount => TimesSeconds.Count;
}
