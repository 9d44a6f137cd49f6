using BosFlow.Footage;

namespace BosFlow.Media.Video;

/// <summary>Pictures as 8-bit luma codes for an encoder.</summary>
internal static class GrayBytes
{
    /// <summary>The pictures as bytes, each row after row; checks that all have one size and a white level.</summary>
    /// <returns>Width, height and bytes; the bytes are valid until the next picture.</returns>
    internal static IEnumerable<(int Width, int Height, byte[] Bytes)> Of(IEnumerable<GrayImage> frames)
    {
        byte[]? bytes = null;
        (int width, int height) = (0, 0);
        foreach (GrayImage frame in frames)
        {
            if (bytes is null)
                (width, height, bytes) = (frame.Width, frame.Height, new byte[frame.Pixels.Length]);
            if (frame.Width != width || frame.Height != height)
                throw new ArgumentException($"A frame of {frame.Width} x {frame.Height} px follows one of {width} x {height}.", nameof(frames));
            if (!(frame.WhiteLevel > 0))
                throw new ArgumentException("A frame without a white level cannot become video.", nameof(frames));
            float scale = 255 / frame.WhiteLevel;
            ReadOnlySpan<float> pixels = frame.Pixels;
            for (int i = 0; i < bytes.Length; i++)
                bytes[i] = float.IsNaN(pixels[i]) ? (byte)0 : (byte)Math.Clamp(MathF.Round(pixels[i] * scale), 0, 255);
            yield return (width, height, bytes);
        }
    }
}
