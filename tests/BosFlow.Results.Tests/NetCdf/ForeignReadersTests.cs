using System.Text.Json;
using BosFlow.Results.NetCdf;
using BosFlow.TestKit;

namespace BosFlow.Results.Tests.NetCdf;

/// <summary>
/// The files against readers from outside the project: h5py and netCDF4-python on the reference libraries HDF5 and
/// netCDF-C, xarray, and ncdump (Debian packages python3-xarray, python3-h5py, python3-netcdf4, netcdf-bin).
/// </summary>
public sealed class ForeignReadersTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public ForeignReadersTests() => NetCdfFile.Write(folder.PathOf("a.nc"), SampleContent.Small());

    public void Dispose() => folder.Dispose();

    [Theory]
    [InlineData("netcdf4")]
    [InlineData("h5netcdf")]
    public void Xarray_SeesDimensionsCoordinatesUnitsAndValues(string engine)
    {
        JsonElement seen = Python(
            $$"""
            import xarray as xr
            d = xr.open_dataset(path, engine='{{engine}}')
            out = dict(dims=d.u.dims, coords=sorted(d.coords), units=[d.u.units, d.x.units, d['count'].units], y=d.y.values.tolist(),
                u=[float.hex(v) for v in d.u.values.ravel().tolist()], flag=d.flag.values.ravel().tolist(), masks=[int(v) for v in d.flag.flag_masks],
                meanings=d.flag.flag_meanings, type=str(d.u.dtype), title=d.title, conventions=d.Conventions, time=float(d.time))
            """);

        Assert.Equal(["y", "x"], Texts(seen, "dims"));
        Assert.Equal(["x", "y"], Texts(seen, "coords"));
        Assert.Equal(["px", "px", "1"], Texts(seen, "units"));
        Assert.Equal([15.5, 31.5, 47.5], Numbers(seen, "y"));
        Assert.Equal("nan", Texts(seen, "u")[2]);
        Assert.Equal("0x1.99999a0000000p-4", Texts(seen, "u")[0]);
        Assert.Equal([0, 1, 4, 2, 3, 64], Numbers(seen, "flag"));
        Assert.Equal([1, 2, 4], Numbers(seen, "masks"));
        Assert.Equal("outlier low_correlation masked", seen.GetProperty("meanings").GetString());
        Assert.Equal("float32", seen.GetProperty("type").GetString());
        Assert.Equal("Strömung", seen.GetProperty("title").GetString());
        Assert.Equal("CF-1.10", seen.GetProperty("conventions").GetString());
        Assert.Equal(1.0 / 3, seen.GetProperty("time").GetDouble());
    }

    [Fact]
    public void H5py_SeesScalesAttachedAndFilters()
    {
        JsonElement seen = Python(
            """
            import h5py
            f = h5py.File(path)
            u = f['u']
            out = dict(scales=[[k for k in d.keys()] for d in u.dims], scale=[h5py.h5ds.is_scale(f[n].id) for n in 'xyu'],
                u=[float.hex(v) for v in u[()].ravel().tolist()], unit=u.attrs['units'], compression=u.compression, shuffle=u.shuffle, level=u.compression_opts,
                warnings=list(f.attrs['warnings']), name=f['x'].attrs['NAME'].decode())
            """);

        Assert.Equal("[[\"y\"], [\"x\"]]", seen.GetProperty("scales").GetRawText());
        Assert.Equal("[true, true, false]", seen.GetProperty("scale").GetRawText());
        Assert.Equal("px", seen.GetProperty("unit").GetString());
        Assert.Equal("-0x1.6000000000000p+1", Texts(seen, "u")[1]);
        Assert.Equal("gzip", seen.GetProperty("compression").GetString());
        Assert.True(seen.GetProperty("shuffle").GetBoolean());
        Assert.Equal(1, seen.GetProperty("level").GetInt32());
        Assert.Equal("second, with a long text that exceeds sixteen bytes by far", Texts(seen, "warnings")[1]);
        Assert.Equal("x", seen.GetProperty("name").GetString());
    }

    [Fact]
    public void NetCdf4Python_MasksWhatWasNotMeasured()
    {
        JsonElement seen = Python(
            """
            import netCDF4
            d = netCDF4.Dataset(path)
            u = d['u'][:]
            out = dict(dims={k: len(v) for k, v in d.dimensions.items()}, mask=u.mask.ravel().tolist(), first=float(u[0, 0]), vars=list(d.variables), filters=d['u'].filters()['zlib'])
            """);

        Assert.Equal("{\"y\": 3, \"x\": 2}", seen.GetProperty("dims").GetRawText());
        Assert.Equal("[false, false, true, false, false, false]", seen.GetProperty("mask").GetRawText());
        Assert.Equal(0.1f, seen.GetProperty("first").GetSingle());
        Assert.True(seen.GetProperty("filters").GetBoolean());
    }

    [Fact]
    public void Ncdump_ShowsNamedDimensionsAndUnits()
    {
        string dump = ChildProcess.Run("ncdump", folder.PathOf("a.nc"));

        Assert.Contains("float u(y, x) ;", dump, StringComparison.Ordinal);
        Assert.Contains("u:units = \"px\"", dump, StringComparison.Ordinal);
        Assert.Contains("u:_FillValue = NaNf", dump, StringComparison.Ordinal);
        Assert.Contains("ubyte flag(y, x) ;", dump, StringComparison.Ordinal);
        Assert.Contains("y = 15.5, 31.5, 47.5 ;", dump, StringComparison.Ordinal);
        Assert.DoesNotContain("phony_dim", dump, StringComparison.Ordinal);
    }

    private JsonElement Python(string program)
    {
        string output = ChildProcess.Python($"import sys, json\npath = sys.argv[1]\n{program}\nprint(json.dumps(out))", folder.PathOf("a.nc"));
        return JsonDocument.Parse(output).RootElement;
    }

    private static string[] Texts(JsonElement seen, string name) => [.. seen.GetProperty(name).EnumerateArray().Select(e => e.GetString()!)];

    private static double[] Numbers(JsonElement seen, string name) => [.. seen.GetProperty(name).EnumerateArray().Select(e => e.GetDouble())];
}
