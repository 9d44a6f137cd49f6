using BosFlow.Footage;

namespace BosFlow.Media.Video;

/// <summary>Pictures as luma codes for an encoder.</summary>
internal static class GrayBytes
{
    /// <summary>The pictures as bytes, each row after row; checks that all have one size and a white level.</summary>
    /// <param name="frames">The pictures.</param>
    /// <param name="bits">8: a byte for each code; 10: two, the lower first.</param>
    /// <returns>Width, height and bytes; the bytes are valid until the next picture.</returns>
    internal static IEnumerable<(int Width, int Height, byte[] Bytes)> Of(IEnumerable<GrayImage> frames, int bits)
    {
        byte[]? bytes = null;
        (int width, int height) = (0, 0);
        foreach (GrayImage frame in frames)
        {
            if (bytes is null)
                (width, height, bytes) = (frame.Width, frame.Height, new byte[frame.Pixels.Length * (bits > 8 ? 2 : 1)]);
            if (frame.Width != width || frame.Height != height)
                throw new ArgumentException($"A frame of {frame.Width} x {frame.Height} px follows one of {width} x {height}.", nameof(frames));
            if (!(frame.WhiteLevel > 0))
                throw new ArgumentException("A frame without a white level cannot become video.", nameof(frames));
            Fill(bytes, frame, bits);
            yield return (width, height, bytes);
        }
    }

    private static void Fill(byte[] bytes, GrayImage frame, int bits)
    {
        int largest = (1 << bits) - 1;
        float scale = largest / frame.WhiteLevel;
        ReadOnlySpan<float> pixels = frame.Pixels;
        for (int i = 0; i < pixels.Length; i++)
        {
            int code = float.IsNaN(pixels[i]) ? 0 : (int)Math.Clamp(MathF.Round(pixels[i] * scale), 0, largest);
            if (bits == 8)
                bytes[i] = (byte)code;
            else
                (bytes[2 * i], bytes[(2 * i) + 1]) = ((byte)code, (byte)(code >> 8));
        }
    }
}
