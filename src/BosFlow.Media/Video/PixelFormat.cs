using System.Globalization;
using System.Text.RegularExpressions;

namespace BosFlow.Media.Video;

/// <summary>How ffmpeg's pixel format is turned into grey levels.</summary>
/// <param name="Bits">Bits of a grey level.</param>
/// <param name="Filter">ffmpeg filter that leaves the grey levels alone in the picture; empty where they already are.</param>
/// <param name="IsLuma">The grey levels are the codec's own luma codes; else they were computed from red, green and blue.</param>
internal sealed partial record PixelFormat(int Bits, string Filter, bool IsLuma)
{
    /// <summary>ffmpeg's name of the grey format that is delivered, little-endian.</summary>
    internal string Delivered => Bits == 8 ? "gray" : FormattableString.Invariant($"gray{Bits}le");

    /// <summary>Bytes of a delivered grey level.</summary>
    internal int Bytes => Bits == 8 ? 1 : 2;

    /// <summary>What to do with a pixel format; null where it is not read.</summary>
    internal static PixelFormat? Of(string name)
    {
        // Plain conversion of yuv to gray stretches limited range to full; taking the plane out leaves the codes alone.
        if (PlanarYuv().Match(name) is { Success: true } yuv)
            return Known(Depth(yuv), "extractplanes=y", true);
        if (Gray().Match(name) is { Success: true } gray)
            return Known(Depth(gray), "", true);
        if (name is "nv12" or "nv21")
            return new PixelFormat(8, "format=yuv420p,extractplanes=y", true);
        if (name is "yuyv422" or "uyvy422" or "nv16")
            return new PixelFormat(8, "format=yuv422p,extractplanes=y", true);
        if (name.StartsWith("p010", StringComparison.Ordinal))
            return new PixelFormat(10, "format=yuv420p10le,extractplanes=y", true);
        // Weights of BT.601 as for pictures, full range: white of red, green and blue is white.
        if (EightBitRgb().IsMatch(name))
            return new PixelFormat(8, "scale=out_color_matrix=bt601:out_range=full,format=gray", false);
        return SixteenBitRgb().IsMatch(name) ? new PixelFormat(16, "scale=out_color_matrix=bt601:out_range=full,format=gray16le", false) : null;
    }

    private static int Depth(Match match) =>
        match.Groups["bits"].Success ? int.Parse(match.Groups["bits"].ValueSpan, NumberStyles.None, CultureInfo.InvariantCulture) : 8;

    // ffmpeg has grey formats of these depths only.
    private static PixelFormat? Known(int bits, string filter, bool luma) =>
        bits is 8 or 9 or 10 or 12 or 14 or 16 ? new PixelFormat(bits, filter, luma) : null;

    [GeneratedRegex("^yuv[aj]?4[0-9]{2}p((?<bits>9|1[0-9])(le|be))?$", RegexOptions.CultureInvariant)]
    private static partial Regex PlanarYuv();

    [GeneratedRegex("^gray((?<bits>9|1[0-9])(le|be))?$", RegexOptions.CultureInvariant)]
    private static partial Regex Gray();

    [GeneratedRegex("^(rgb24|bgr24|rgb0|bgr0|0rgb|0bgr|rgba|bgra|argb|abgr|gbrp|gbrap|pal8)$", RegexOptions.CultureInvariant)]
    private static partial Regex EightBitRgb();

    [GeneratedRegex("^((rgb48|bgr48|rgba64|bgra64)(le|be)|gbra?p(10|12|14|16)(le|be))$", RegexOptions.CultureInvariant)]
    private static partial Regex SixteenBitRgb();
}
