using PureHDF;
using PureHDF.VOL.Native;

namespace BosFlow.Results.NetCdf;

/// <summary>Reads the bytes of a file of ours back.</summary>
internal static class NetCdfReader
{
    private static readonly string[] Plumbing = ["CLASS", "NAME", "_Netcdf4Dimid", "_Netcdf4Coordinates", "DIMENSION_LIST", "_FillValue"];

    public static NetCdfContent FromBytes(byte[] bytes, string path)
    {
        NetCdfContent content;
        bool intact;
        try
        {
            ClaimedSizes.Check(bytes, ObjectHeaders.Walk(bytes));
            using var stream = new MemoryStream(bytes, writable: false);
            using NativeFile file = H5File.Open(stream);
            (content, string digest) = Content(file, bytes.Length);
            intact = ContentDigest.Of(content) == digest;
        }

        // PureHDF reports damage by whatever exception its parser runs into, bare Exception among them.
        catch (Exception e) when (e is not InputDataException)
        {
            throw new InputDataException($"{path} is damaged or was not written by this program ({e.Message.ReplaceLineEndings(" ")}); delete it so that it is made again.", e);
        }

        if (!intact)
            throw new InputDataException($"{path} is damaged: its values do not match its checksum; delete it so that it is made again.");
        return content;
    }

    private static (NetCdfContent Content, string Digest) Content(NativeFile file, int fileLength)
    {
        List<IH5Dataset> sets = [.. file.Children().OfType<IH5Dataset>()];
        Dictionary<int, string> dimensions = sets
            .Where(s => s.AttributeExists("_Netcdf4Dimid"))
            .ToDictionary(s => s.Attribute("_Netcdf4Dimid").Read<int>(), s => s.Name);
        List<NetCdfAttribute> attributes = Attributes(file);
        string digest = attributes.FirstOrDefault(a => a.Name == NetCdfFile.DigestName)?.Value as string
            ?? throw new InvalidDataException("it has no checksum of its content");
        attributes.RemoveAll(a => a.Name is NetCdfFile.DigestName or NetCdfFile.ConventionsName);
        NetCdfVariable[] variables = [.. sets.Select(s => Variable(s, dimensions, fileLength))];
        return (new NetCdfContent { Variables = variables, Attributes = attributes }, digest);
    }

    private static NetCdfVariable Variable(IH5Dataset set, Dictionary<int, string> dimensions, int fileLength)
    {
        // Deflate packs at most about 1 : 1032; a larger claim is damage and must not take the memory.
        ulong count = set.Space.Dimensions.Aggregate(1UL, (product, length) => checked(product * length));
        if (checked(count * (ulong)set.Type.Size) > 1100UL * (ulong)fileLength)
            throw new InvalidDataException($"{set.Name} claims more values than the file can hold");
        List<NetCdfAttribute> attributes = Attributes(set);
        string[] names = dimensions.ContainsValue(set.Name) ? [set.Name]
            : set.AttributeExists("_Netcdf4Coordinates") ? [.. set.Attribute("_Netcdf4Coordinates").Read<int[]>().Select(id => dimensions[id])]
            : [];
        return new NetCdfVariable
        {
            Name = set.Name,
            Dimensions = names,
            Data = Values(set, names.Length == 0, checked((int)count)),
            Unit = attributes.FirstOrDefault(a => a.Name == "units")?.Value as string,
            LongName = attributes.FirstOrDefault(a => a.Name == "long_name")?.Value as string ?? string.Empty,
            Attributes = [.. attributes.Where(a => a.Name is not ("units" or "long_name"))],
        };
    }

    private static Array Values(IH5Dataset set, bool single, int count) => (set.Type.Class, set.Type.Size) switch
    {
        (H5DataTypeClass.FloatingPoint, 4) => single ? new[] { set.Read<float>() } : Flat<float>(set, count),
        (H5DataTypeClass.FloatingPoint, 8) => single ? new[] { set.Read<double>() } : Flat<double>(set, count),
        (H5DataTypeClass.FixedPoint, 4) => single ? new[] { set.Read<int>() } : Flat<int>(set, count),
        (H5DataTypeClass.FixedPoint, 1) => single ? new[] { set.Read<byte>() } : Flat<byte>(set, count),
        _ => throw new InvalidDataException($"{set.Name} is of a type this program does not write"),
    };

    private static T[] Flat<T>(IH5Dataset set, int count)
    {
        var values = new T[count];
        set.Read(values, memoryDims: [(ulong)count]);
        return values;
    }

    private static List<NetCdfAttribute> Attributes(IH5Object owner) =>
        [.. owner.Attributes().Where(a => !Plumbing.Contains(a.Name)).Select(a => new NetCdfAttribute(a.Name, Value(a)))];

    private static object Value(IH5Attribute attribute)
    {
        bool single = attribute.Space.Rank == 0;
        return (attribute.Type.Class, attribute.Type.Size) switch
        {
            (H5DataTypeClass.String or H5DataTypeClass.VariableLength, _) => single ? attribute.Read<string>() : attribute.Read<string[]>(),
            (H5DataTypeClass.FloatingPoint, 8) => single ? attribute.Read<double>() : attribute.Read<double[]>(),
            (H5DataTypeClass.FloatingPoint, 4) => single ? attribute.Read<float>() : attribute.Read<float[]>(),
            (H5DataTypeClass.FixedPoint, 4) => single ? attribute.Read<int>() : attribute.Read<int[]>(),
            (H5DataTypeClass.FixedPoint, 1) => single ? attribute.Read<byte>() : attribute.Read<byte[]>(),
            _ => throw new InvalidDataException($"the attribute {attribute.Name} is of a type this program does not write"),
        };
    }
}
