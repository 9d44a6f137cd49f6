using System.Numerics;
using System.Runtime.InteropServices;
using OpenCvSharp;

namespace BosFlow.Media.Pictures;

/// <summary>Grey levels of a decoded picture as floats.</summary>
/// <remarks>
/// Colour becomes luma Y' = 0.299 R' + 0.587 G' + 0.114 B' of the coded values, unrounded. Source: Recommendation
/// ITU-R BT.601-7, section 2.5.1. The weights of BT.601, not of BT.709, because they are those of JPEG's own luma
/// (ITU-T T.871, section 7): a frame gives the same grey levels whether it was kept as JPEG, PNG or TIFF. Gamma is
/// left in: displacement needs the pattern, not the radiance. Alpha is ignored.
/// </remarks>
internal static class Luma
{
    private const float Red = 0.299f;
    private const float Blue = 0.114f;

    /// <summary>Row-major grey levels of a picture of 1, 3 or 4 channels; what is infinite becomes NaN.</summary>
    internal static float[] Of(Mat picture)
    {
        int rows = picture.Rows;
        int columns = picture.Cols;
        int channels = picture.Channels();
        int depth = picture.Depth();
        float[] gray = new float[checked(rows * columns)];
        for (int y = 0; y < rows; y++)
        {
            Span<float> row = gray.AsSpan(y * columns, columns);
            if (depth == MatType.CV_8U)
                Row<byte>(picture, y, channels, row);
            else if (depth == MatType.CV_16U)
                Row<ushort>(picture, y, channels, row);
            else if (depth == MatType.CV_32F)
                Row<float>(picture, y, channels, row);
            else if (depth == MatType.CV_64F)
                Row<double>(picture, y, channels, row);
            else
                throw new NotSupportedException($"Pictures of depth {depth} are refused by their header.");
        }

        return gray;
    }

    private static void Row<T>(Mat picture, int y, int channels, Span<float> gray)
        where T : unmanaged, INumberBase<T>
    {
        ReadOnlySpan<T> samples = Samples<T>(picture, y, gray.Length * channels);
        for (int x = 0; x < gray.Length; x++)
        {
            int at = x * channels;
            float green = float.CreateTruncating(samples[channels >= 3 ? at + 1 : at]);
            // About green, so that equal colours give exactly their value. Stored blue, green, red.
            float level = channels >= 3
                ? green + (Red * (float.CreateTruncating(samples[at + 2]) - green)) + (Blue * (float.CreateTruncating(samples[at]) - green))
                : green;
            gray[x] = float.IsFinite(level) ? level : float.NaN;
        }
    }

    // RowSpan counts pixels, not samples, whatever T is.
    private static ReadOnlySpan<T> Samples<T>(Mat picture, int y, int count)
        where T : unmanaged => MemoryMarshal.CreateReadOnlySpan(ref MemoryMarshal.GetReference(picture.RowSpan<T>(y)), count);
}
