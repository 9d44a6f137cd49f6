using BosFlow.Footage;
using OpenCvSharp;

namespace BosFlow.Media.Pictures;

/// <summary>Turns the bytes of a picture file into grey levels.</summary>
internal static class PictureDecoder
{
    /// <summary>Decodes a whole file whose header was read and found acceptable.</summary>
    /// <exception cref="InputDataException">The file is truncated or damaged.</exception>
    internal static GrayImage Decode(byte[] file, PictureHeader header, string name)
    {
        // OpenCV fills what is missing with grey or black and says nothing, so the file is checked first.
        string? problem = PictureHeaderReader.CompletenessProblem(file, header, name);
        if (problem is not null)
            throw new InputDataException($"{name} {problem}; copy it again from the camera or leave it out.");
        using Mat picture = Decoded(file, header, name);
        if (picture.Empty() || picture.Cols != header.StoredWidth || picture.Rows != header.StoredHeight)
            throw new InputDataException($"{name} cannot be decoded ({header.Description}): it is damaged, so copy it again from the camera or leave it out.");
        float white = header.IsFloat ? float.NaN : picture.Depth() == MatType.CV_16U ? 65535 : 255;
        var stored = new GrayImage(picture.Cols, picture.Rows, Luma.Of(picture), white);
        return OrientationTurn.Apply(stored, header.Orientation);
    }

    private static Mat Decoded(byte[] file, PictureHeader header, string name)
    {
        // Grey from JPEG is its luma plane as it is coded, without a detour over RGB. Unchanged leaves the turning to us.
        ImreadModes mode = header.Format == PictureFormat.Jpeg ? ImreadModes.Grayscale | ImreadModes.IgnoreOrientation : ImreadModes.Unchanged;
        try
        {
            QuietOpenCv.Ensure();
            return Cv2.ImDecode(file, mode);
        }
        catch (OpenCVException failure)
        {
            throw new InputDataException($"{name} cannot be decoded ({header.Description}): {failure.Message}", failure);
        }
    }
}
