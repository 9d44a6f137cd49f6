namespace BosFlow.Media.Pictures;

/// <summary>Tags of a TIFF directory. Source: TIFF Revision 6.0, Adobe, 1992, appendix A.</summary>
internal static class TiffTags
{
    internal const int NewSubfileType = 254;
    internal const int ImageWidth = 256;
    internal const int ImageLength = 257;
    internal const int BitsPerSample = 258;
    internal const int Compression = 259;
    internal const int Photometric = 262;
    internal const int StripOffsets = 273;
    internal const int Orientation = 274;
    internal const int SamplesPerPixel = 277;
    internal const int RowsPerStrip = 278;
    internal const int StripByteCounts = 279;
    internal const int PlanarConfiguration = 284;
    internal const int TileWidth = 322;
    internal const int TileLength = 323;
    internal const int TileOffsets = 324;
    internal const int TileByteCounts = 325;
    internal const int SampleFormat = 339;
}
