namespace BosFlow.Media.Pictures;

/// <summary>What a picture or video may claim to be before any memory is taken for it.</summary>
internal static class PictureLimits
{
    /// <summary>Most pixels of a picture: 2^28, about 268 megapixels or 1 GiB as 32-bit floats.</summary>
    internal const long MaxPixels = 1L << 28;

    /// <summary>Longest side, px; also the most that a JPEG can be.</summary>
    internal const long MaxSide = 65535;

    /// <summary>Most bytes of a picture file: what one array holds.</summary>
    internal const long MaxFileBytes = 0x7FFFFFC7;

    /// <summary>Refuses sizes that are zero or absurd.</summary>
    /// <exception cref="InputDataException">A side or the number of pixels is outside the limits.</exception>
    internal static void Check(long width, long height, string name)
    {
        if (width < 1 || height < 1)
            throw new InputDataException(FormattableString.Invariant($"{name} claims to be {width} x {height} px: its header is damaged, so save or copy it again."));
        if (width > MaxSide || height > MaxSide || width * height > MaxPixels)
            throw new InputDataException(FormattableString.Invariant($"{name} claims to be {width} x {height} px, more than the {MaxSide} px a side and {MaxPixels / 1000000} megapixels that are accepted: its header is damaged, or the picture must be cut into parts."));
    }
}
