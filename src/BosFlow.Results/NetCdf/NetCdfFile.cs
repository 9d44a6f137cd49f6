using BosFlow.Results.Files;

namespace BosFlow.Results.NetCdf;

/// <summary>
/// netCDF-4 files with CF conventions: dimension scales, units, _FillValue, shuffle and deflate; they open in xarray,
/// h5py, ncdump and ParaView as they are. The same content gives the same bytes. Safe to use from several threads.
/// </summary>
public static class NetCdfFile
{
    /// <summary>Name of the attribute with the SHA-256 of the content.</summary>
    internal const string DigestName = "content_sha256";

    /// <summary>Name of the attribute with the version of the CF conventions.</summary>
    internal const string ConventionsName = "Conventions";

    /// <summary>Writes a file: whole, or not at all.</summary>
    /// <param name="path">Where; the folder must exist; an existing file is replaced.</param>
    /// <param name="content">What; at most 2 GB.</param>
    /// <exception cref="ArgumentException">The content contradicts itself: a length that does not fit its dimensions, a dimension without coordinate, a name twice.</exception>
    public static void Write(string path, NetCdfContent content)
    {
        ArgumentNullException.ThrowIfNull(content);
        byte[] bytes = NetCdfWriter.ToBytes(content);
        AtomicFile.WriteBytes(path, bytes);
    }

    /// <summary>Reads a file that <see cref="Write"/> wrote, bit for bit, and checks it against its own checksums.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="InputDataException">The file is missing, damaged or of another program.</exception>
    public static NetCdfContent Read(string path)
    {
        byte[] bytes;
        try
        {
            OrdinaryFile.Require(path);
            bytes = File.ReadAllBytes(path);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new InputDataException($"{path} cannot be read ({e.Message}); check the path and its permissions.", e);
        }

        return NetCdfReader.FromBytes(bytes, path);
    }
}
