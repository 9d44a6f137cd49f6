using BosFlow.Footage;

namespace BosFlow.Media;

/// <summary>Grey levels stretched from a picture's darkest to its brightest, for detection alone.</summary>
internal static class StretchedLevels
{
    /// <summary>One byte a pixel, row-major; NaN counts as black.</summary>
    public static byte[] Of(GrayImage picture)
    {
        float low = float.PositiveInfinity;
        float high = float.NegativeInfinity;
        foreach (float level in picture.Pixels)
        {
            if (level < low)
                low = level;
            if (level > high)
                high = level;
        }

        float scale = high > low ? 255 / (high - low) : 0;
        byte[] bytes = new byte[picture.Pixels.Length];
        for (int i = 0; i < bytes.Length; i++)
        {
            float level = picture.Pixels[i];
            bytes[i] = float.IsNaN(level) ? (byte)0 : (byte)(((level - low) * scale) + 0.5f);
        }

        return bytes;
    }
}
