using BosFlow.Media.Video;

namespace BosFlow.Media;

/// <summary>How a camera would write its video.</summary>
public sealed record VideoEncoding
{
    /// <summary>H.264, or HEVC (H.265).</summary>
    public bool IsHevc { get; init; }

    /// <summary>Mean rate, Mbit/s, greater than 0; null = nearly lossless, whatever the rate.</summary>
    public double? MegabitsPerSecond { get; init; }

    /// <summary>Frames from one that stands for itself to the next, 1 to 1000.</summary>
    public int KeyFrameEvery { get; init; } = 15;

    /// <summary>Whether frames may rest on a later one too (B frames), for which an encoder must wait; only where a rate is given.</summary>
    public bool HasBidirectionalFrames { get; init; } = true;

    /// <summary>8 or 10 bits.</summary>
    public int Bits { get; init; } = 8;

    /// <summary>Degrees by which a player turns the pictures clockwise, 0, 90, 180 or 270; they are stored turned the other way, so that they are seen upright.</summary>
    public int RotationDegrees { get; init; }

    /// <summary>Frames just before which time goes on by one more period; a number twice means two more.</summary>
    public IReadOnlyList<int> PausesBefore { get; init; } = [];

    /// <summary>Whether this is what any machine can write in one form or another: nearly lossless, at an even pace, upright, 8 bits.</summary>
    public bool IsStandard => this is { IsHevc: false, MegabitsPerSecond: null, Bits: 8, RotationDegrees: 0, PausesBefore.Count: 0 };

    /// <summary>Name of the codec.</summary>
    public string CodecName => IsHevc ? "HEVC" : "H.264";

    /// <summary>Name of ffmpeg's encoder.</summary>
    internal string Encoder => IsHevc ? "libx265" : "libx264";

    /// <summary>Refuses an encoding that this machine cannot make.</summary>
    /// <param name="cancellationToken">Ends the question to ffmpeg.</param>
    /// <exception cref="InputDataException">ffmpeg or its encoder is missing.</exception>
    public void RequireTools(CancellationToken cancellationToken) => RequireTools(ExternalTools.Find(), cancellationToken);

    /// <summary>The same with the tools as a parameter, so that tests can take them away.</summary>
    internal ExternalTools RequireTools(ExternalTools? tools, CancellationToken cancellationToken)
    {
        if (tools is null)
            throw new InputDataException($"A video in {CodecName} needs ffmpeg, which is missing on this machine; install the package ffmpeg, or take the section [video] out of the recipe.");
        if (!FfmpegEncoder.Has(tools, Encoder, cancellationToken))
            throw new InputDataException($"A video in {CodecName} needs an ffmpeg with the encoder {Encoder}, and {tools.Ffmpeg} has none; install another build of ffmpeg, or take the section [video] out of the recipe.");
        return tools;
    }
}
