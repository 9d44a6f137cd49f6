namespace BosFlow.Media;

/// <summary>A video that was written.</summary>
/// <param name="Path">The file; its ending differs from the one asked for where the encoder needs another container.</param>
/// <param name="Encoding">Codec and encoder, for messages and the provenance.</param>
/// <param name="FrameCount">Frames in it.</param>
public sealed record WrittenVideo(string Path, string Encoding, int FrameCount);
