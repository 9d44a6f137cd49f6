namespace BosFlow.Media.Pictures;

/// <summary>File formats of pictures that are read.</summary>
internal enum PictureFormat
{
    Png,
    Tiff,
    Jpeg,
    Bmp,
}
