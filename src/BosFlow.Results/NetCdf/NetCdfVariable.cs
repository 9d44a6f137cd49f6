namespace BosFlow.Results.NetCdf;

/// <summary>
/// One array of a netCDF file with its unit. A variable of one dimension that has the dimension's name is its coordinate;
/// every dimension of a file needs one, because a grid without positions is of no use.
/// </summary>
public sealed record NetCdfVariable
{
    /// <summary>Name in the file; letters, digits and underscores.</summary>
    public required string Name { get; init; }

    /// <summary>Names of the dimensions, slowest first, for example y, x; empty for a single value.</summary>
    public required IReadOnlyList<string> Dimensions { get; init; }

    /// <summary>float[], double[], int[] or byte[], row-major over the dimensions; a single value is an array of one.</summary>
    public required Array Data { get; init; }

    /// <summary>Unit in the notation of the CF conventions (px, kg m-3, 1); null where a unit makes no sense, as for flags.</summary>
    public string? Unit { get; init; }

    /// <summary>The quantity in words, for labels.</summary>
    public required string LongName { get; init; }

    /// <summary>Further attributes in the order in which they are written. units, long_name and _FillValue are written by themselves.</summary>
    public IReadOnlyList<NetCdfAttribute> Attributes { get; init; } = [];
}
