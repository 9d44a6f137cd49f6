using System.Buffers.Binary;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using System.Text;

namespace BosFlow.Results.NetCdf;

/// <summary>SHA-256 of what a file says, whatever its byte layout: names, dimensions, units, attributes and values.</summary>
internal static class ContentDigest
{
    public static string Of(NetCdfContent content)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        Add(hash, content.Attributes);
        foreach (NetCdfVariable variable in content.Variables.OrderBy(v => v.Name, StringComparer.Ordinal))
        {
            Add(hash, variable.Name);
            Add(hash, variable.Dimensions.Count);
            foreach (string dimension in variable.Dimensions)
                Add(hash, dimension);
            Add(hash, variable.Unit ?? string.Empty);
            Add(hash, variable.LongName);
            Add(hash, variable.Attributes);
            AddValue(hash, variable.Data);
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    private static void Add(IncrementalHash hash, IReadOnlyList<NetCdfAttribute> attributes)
    {
        Add(hash, attributes.Count);
        foreach (NetCdfAttribute attribute in attributes.OrderBy(a => a.Name, StringComparer.Ordinal))
        {
            Add(hash, attribute.Name);
            AddValue(hash, attribute.Value);
        }
    }

    // A list and a single value differ by the marker, so that one cannot stand for the other.
    private static void AddValue(IncrementalHash hash, object value)
    {
        Add(hash, value.GetType().Name);
        switch (value)
        {
            case string text: Add(hash, text); break;
            case string[] texts:
                Add(hash, texts.Length);
                foreach (string text in texts)
                    Add(hash, text);
                break;
            case double number: AddBytes<double>(hash, [number]); break;
            case float number: AddBytes<float>(hash, [number]); break;
            case int number: AddBytes<int>(hash, [number]); break;
            case byte number: AddBytes<byte>(hash, [number]); break;
            case double[] numbers: AddBytes<double>(hash, numbers); break;
            case float[] numbers: AddBytes<float>(hash, numbers); break;
            case int[] numbers: AddBytes<int>(hash, numbers); break;
            case byte[] numbers: AddBytes<byte>(hash, numbers); break;
            default: throw new ArgumentException($"Values of type {value.GetType().Name} cannot be kept in a netCDF file.", nameof(value));
        }
    }

    private static void Add(IncrementalHash hash, string text)
    {
        byte[] bytes = Encoding.UTF8.GetBytes(text);
        Add(hash, bytes.Length);
        hash.AppendData(bytes);
    }

    private static void Add(IncrementalHash hash, int number)
    {
        Span<byte> bytes = stackalloc byte[sizeof(int)];
        BinaryPrimitives.WriteInt32LittleEndian(bytes, number);
        hash.AppendData(bytes);
    }

    private static void AddBytes<T>(IncrementalHash hash, ReadOnlySpan<T> values)
        where T : unmanaged
    {
        if (!BitConverter.IsLittleEndian)
            throw new PlatformNotSupportedException("Digests are defined over little-endian values.");
        Add(hash, values.Length);
        hash.AppendData(MemoryMarshal.AsBytes(values));
    }
}
