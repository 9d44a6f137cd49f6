namespace BosFlow.Media.Video;

/// <summary>Recognises containers by the first bytes of a file.</summary>
internal static class ContainerSignature
{
    /// <summary>MP4, MOV and their kin. Source: ISO/IEC 14496-12:2015, section 4.3.</summary>
    internal static bool IsMp4(string path) => Start(path).AsSpan(4, 4).SequenceEqual("ftyp"u8);

    /// <summary>AVI.</summary>
    internal static bool IsAvi(string path) => Start(path).AsSpan(0, 4).SequenceEqual("RIFF"u8);

    private static byte[] Start(string path)
    {
        byte[] start = new byte[12];
        using FileStream file = File.OpenRead(path);
        file.ReadAtLeast(start, start.Length, throwOnEndOfStream: false);
        return start;
    }
}
