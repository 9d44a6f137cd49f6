using BosFlow.Footage;
using BosFlow.Media.Pictures;

namespace BosFlow.Media;

/// <summary>Reads pictures: PNG, TIFF, JPEG and BMP, 8 and 16 bit, float TIFF, grey or colour.</summary>
/// <remarks>
/// Grey levels are the file's own numbers; nothing is stretched. Colour becomes luma by the weights of ITU-R BT.601,
/// which are JPEG's own; alpha is ignored. NaN of a float TIFF stays NaN, and infinite levels become NaN. The picture is
/// turned as its Exif orientation asks (JPEG, PNG), so that coordinates are those that picture viewers show, as they
/// are for video; the rows of the result are then not the sensor's rows where a picture was turned by 90 degrees.
/// The format is recognised by the content, not by the file's name. Thread-safe.
/// </remarks>
public static class PictureReader
{
    /// <summary>Reads one picture.</summary>
    /// <param name="path">Path of the file; spaces and letters of any script are welcome.</param>
    /// <returns>Grey levels with the white level 255, 65535, or NaN for float.</returns>
    /// <exception cref="InputDataException">The file is missing, empty, a folder, not readable, no picture, absurdly large by its header, truncated, damaged or of a kind that is not read.</exception>
    public static GrayImage Read(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        return Read(path, path);
    }

    /// <summary>Reads one picture that messages call by another name.</summary>
    internal static GrayImage Read(string path, string name)
    {
        using Stream stream = InputFile.Open(path, name);
        PictureHeader header = PictureHeaderReader.Read(stream, name);
        if (stream.Length > PictureLimits.MaxFileBytes)
            throw new InputDataException(FormattableString.Invariant($"{name} has {stream.Length} bytes, more than the {PictureLimits.MaxFileBytes} that are accepted for one picture; leave it out, or save it with compression or cut into parts."));
        byte[] file = new byte[stream.Length];
        stream.Position = 0;
        int got = stream.ReadAtLeast(file, file.Length, throwOnEndOfStream: false);
        return got == file.Length
            ? PictureDecoder.Decode(file, header, name)
            : throw new InputDataException($"{name} became shorter while it was read: wait until it is copied completely.");
    }

    /// <summary>Reads only the header of a picture.</summary>
    internal static PictureHeader ReadHeader(string path, string name)
    {
        using Stream stream = InputFile.Open(path, name);
        return PictureHeaderReader.Read(stream, name);
    }
}
