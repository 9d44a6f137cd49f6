namespace BosFlow.Media.Video;

/// <summary>A frame as ffmpeg delivered it.</summary>
/// <param name="Stamp">Its time stamp in ticks of the stream; null where it has none.</param>
/// <param name="Bytes">Its grey levels, rows without gaps; valid until the next frame is read.</param>
internal readonly record struct DecodedFrame(long? Stamp, byte[] Bytes);
