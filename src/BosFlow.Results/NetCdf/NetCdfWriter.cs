using PureHDF;
using PureHDF.Filters;
using PureHDF.VOL.Native;

namespace BosFlow.Results.NetCdf;

/// <summary>Builds the bytes of a netCDF-4 file: the netCDF conventions on top of HDF5.</summary>
internal static class NetCdfWriter
{
    public static byte[] ToBytes(NetCdfContent content)
    {
        ContentRules.Check(content);
        var file = new H5File();
        AddAttributes(file, [.. content.Attributes, new(NetCdfFile.ConventionsName, "CF-1.10"), new(NetCdfFile.DigestName, ContentDigest.Of(content))]);
        List<NetCdfVariable> scales = ContentRules.Coordinates(content);
        Dictionary<string, (H5Dataset Set, int Id, int Length)> dimensions = [];
        foreach (NetCdfVariable scale in scales)
        {
            var set = new H5Dataset(scale.Data, fileDims: [(ulong)scale.Data.Length]);
            set.Attributes["CLASS"] = ScaleText.Attribute("DIMENSION_SCALE");
            set.Attributes["NAME"] = ScaleText.Attribute(scale.Name);
            set.Attributes["_Netcdf4Dimid"] = dimensions.Count;
            dimensions[scale.Name] = (set, dimensions.Count, scale.Data.Length);
        }

        foreach (NetCdfVariable variable in content.Variables)
        {
            H5Dataset set = scales.Contains(variable) ? dimensions[variable.Name].Set : Dataset(variable, dimensions);
            AddAttributes(set, variable);
            file[variable.Name] = set;
        }

        using var stream = new MemoryStream();
        file.Write(stream, new H5WriteOptions());
        byte[] bytes = stream.ToArray();
        int declared = ScaleText.Declare(bytes);
        return declared == 2 * scales.Count
            ? bytes
            : throw new InvalidOperationException($"{declared} texts of {2 * scales.Count} dimension scales could be declared; the HDF5 library writes another layout than expected.");
    }

    private static H5Dataset Dataset(NetCdfVariable variable, Dictionary<string, (H5Dataset Set, int Id, int Length)> dimensions)
    {
        if (variable.Dimensions.Count == 0)
            return new H5Dataset(variable.Data, fileDims: []);
        int[] lengths = [.. variable.Dimensions.Select(d => dimensions[d].Length)];
        // One chunk a variable: PureHDF unpacks a chunk of more than its 1 MB cache again for every row it reads across chunks.
        uint[] chunks = [.. lengths.Select(n => (uint)n)];
        var set = new H5Dataset(variable.Data, chunks, fileDims: [.. lengths.Select(n => (ulong)n)], datasetCreation: new H5DatasetCreation(Filters: Filters()));
        set.Attributes["DIMENSION_LIST"] = new H5Attribute(
            variable.Dimensions.Select(d => new H5ObjectReference[] { dimensions[d].Set }).ToArray());
        set.Attributes["_Netcdf4Coordinates"] = variable.Dimensions.Select(d => dimensions[d].Id).ToArray();
        return set;
    }

    // Deflate level 1: measured on vector fields, level 6 is half as fast and 7 % smaller.
    private static List<H5Filter> Filters() =>
        [ShuffleFilter.Id, new H5Filter(DeflateFilter.Id, new Dictionary<string, object> { [DeflateFilter.COMPRESSION_LEVEL] = 1 })];

    private static void AddAttributes(H5Dataset set, NetCdfVariable variable)
    {
        set.Attributes["long_name"] = variable.LongName;
        if (variable.Unit is not null)
            set.Attributes["units"] = variable.Unit;
        if (variable.Data is float[])
            set.Attributes["_FillValue"] = new H5Attribute(new[] { float.NaN });
        else if (variable.Data is double[] && variable.Dimensions is not [_])
            set.Attributes["_FillValue"] = new H5Attribute(new[] { double.NaN });
        AddAttributes(set, variable.Attributes);
    }

    private static void AddAttributes(H5Object target, IEnumerable<NetCdfAttribute> attributes)
    {
        foreach (NetCdfAttribute attribute in attributes)
            target.Attributes[attribute.Name] = new H5Attribute(attribute.Value);
    }
}
