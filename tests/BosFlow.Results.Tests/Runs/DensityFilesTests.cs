using System.Runtime.InteropServices;
using System.Text.Json;
using BosFlow.Density;
using BosFlow.Optics;
using BosFlow.Pipeline;
using BosFlow.Results.NetCdf;
using BosFlow.Results.Runs;
using BosFlow.TestKit;

namespace BosFlow.Results.Tests.Runs;

public sealed class DensityFilesTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public static TheoryData<string> Kinds => [.. Results.Keys];

    public void Dispose() => folder.Dispose();

    private static Dictionary<string, DensityResult> Results { get; } = new()
    {
        ["axisymmetric"] = SampleDensity.Axisymmetric(),
        ["planar"] = SampleDensity.Planar(),
        ["path-integrated"] = SampleDensity.PathIntegrated(),
        ["nothing determined"] = SampleDensity.Nothing(SampleDensity.Axisymmetric()),
        ["no field"] = SampleDensity.Refused("No axis of symmetry was found."),
        ["one station"] = SampleDensity.Axisymmetric(stations: 1),
        ["not anchored, no temperature"] = SampleDensity.NotAnchored(SampleDensity.Planar()),
        ["empty profile"] = SampleDensity.Axisymmetric() with { Profiles = [Empty(SampleDensity.Axisymmetric().Profiles[0])] },
    };

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Read_WhatWasWritten_IsTheSameBitForBit(string kind)
    {
        DensityResult density = Results[kind];

        DensityResult read = Roundtrip(density);

        Assert.Equal((density.Shape, density.Grid, density.Axis), (read.Shape, read.Grid, read.Axis));
        Assert.Equal(density.Fields.Select(f => (f.Name, f.Title, f.Unit, Bits(f.Values), Bits(f.Sigma))), read.Fields.Select(f => (f.Name, f.Title, f.Unit, Bits(f.Values), Bits(f.Sigma))));
        Assert.Equal(Bits(density.SigmaRandom), Bits(read.SigmaRandom));
        Assert.Equal(Bits(density.NormalisedResidual), Bits(read.NormalisedResidual));
        Assert.Equal(density.Flags, read.Flags);
        Assert.Equal(density.Profiles.Select(Bits), read.Profiles.Select(Bits));
        Assert.Equal(density.Budget?.Lines, read.Budget?.Lines);
        Assert.Equal(density.Budget is { } b ? b with { Lines = [] } : null, read.Budget is { } r ? r with { Lines = [] } : null);
        Assert.Equal(density.Checks, read.Checks);
        Assert.Equal(density.Methods, read.Methods);
        Assert.Equal(density.Warnings, read.Warnings);
    }

    [Fact]
    public void Summary_InXarray_HasFieldsTwinsAndProfilesWithUnits()
    {
        Write(SampleDensity.Axisymmetric());

        JsonElement seen = Python(
            """
            import xarray
            d = xarray.open_dataset(path)
            p = d.profile_density
            out = dict(dims=[list(d.density.dims), list(p.dims), list(d.density_flag.dims)], units=[d.density.units, d.sigma_density.units, d.sigma_random_density.units, d.temperature.units, p.units, d.radius.units, d.radius_mm.units, d.station_axial_mm.units],
                names=[d.density.standard_name, d.sigma_temperature.standard_name], coords=sorted(p.coords), meanings=d.profile_flag.flag_meanings, masks=[int(m) for m in d.density_flag.flag_masks],
                near=float(p.isel(station=0).sel(radius=0.003, method='nearest').radius_mm), ends=int(p.isel(station=0).count()), counts=int(d.radius_count[0]), shape=d.flow_shape, direction=float(d.axis_direction_deg))
            """);

        Assert.Equal("""[["y", "x"], ["station", "radius"], ["y", "x"]]""", seen.GetProperty("dims").GetRawText());
        Assert.Equal("""["kg m-3", "kg m-3", "kg m-3", "K", "kg m-3", "m", "mm", "mm"]""", seen.GetProperty("units").GetRawText());
        Assert.Equal("""["air_density", "air_temperature standard_error"]""", seen.GetProperty("names").GetRawText());
        Assert.Equal("""["radius", "radius_mm", "station", "station_axial", "station_axial_mm", "station_x", "station_y"]""", seen.GetProperty("coords").GetRawText());
        Assert.Equal("not_measured not_anchored not_positive bridged asymmetric", seen.GetProperty("meanings").GetString());
        Assert.Equal("[1, 2, 4, 8, 16]", seen.GetProperty("masks").GetRawText());
        Assert.Equal(2.976, seen.GetProperty("near").GetDouble(), 1e-9);
        Assert.Equal(seen.GetProperty("counts").GetInt32(), seen.GetProperty("ends").GetInt32());
        Assert.Equal("axisymmetric", seen.GetProperty("shape").GetString());
        Assert.Equal(87, seen.GetProperty("direction").GetDouble());
    }

    [Fact]
    public void Summary_OfProfilesOfDifferentLength_IsFilledWithNothingMeasured()
    {
        DensityResult density = SampleDensity.Axisymmetric();
        RadialProfile shorter = Cut(density.Profiles[1], 5);
        Write(density with { Profiles = [density.Profiles[0], shorter] });

        JsonElement seen = Python(
            """
            import netCDF4
            d = netCDF4.Dataset(path)
            out = dict(counts=d['radius_count'][:].tolist(), missing=d['profile_temperature'][1].mask.tolist()[4:7], flags=d['profile_flag'][1].tolist()[4:7])
            """);

        Assert.Equal($$"""{"counts": [{{density.Profiles[0].RadiusMetres.Length}}, 5], "missing": [false, true, true], "flags": [0, 1, 1]}""", seen.GetRawText());
    }

    [Fact]
    public void Summary_OfAnotherGas_ClaimsNoStandardNameOfAir()
    {
        RunSummary summary = SampleDensity.Summary(SampleDensity.Planar());

        NetCdfContent content = SummaryFile.ToContent(summary with { Case = summary.Case with { Gas = new GasSettings { Name = "helium" } } }, "id");

        Assert.DoesNotContain(content.Variable("density").Attributes, a => a.Name == "standard_name");
    }

    [Fact]
    public void Summary_InNcdump_NamesDimensions()
    {
        Write(SampleDensity.Axisymmetric());

        string header = ChildProcess.Run("ncdump", "-h", folder.PathOf("summary.nc"));

        Assert.Contains("double profile_density(station, radius) ;", header, StringComparison.Ordinal);
        Assert.Contains("ubyte density_flag(y, x) ;", header, StringComparison.Ordinal);
        Assert.DoesNotContain("phony_dim", header, StringComparison.Ordinal);
    }

    [Fact]
    public void ProfilesTable_InPythonsCsvModule_HasARowAStationAndRadius()
    {
        DensityResult density = SampleDensity.Axisymmetric();
        File.WriteAllText(folder.PathOf("profiles.csv"), ProfilesTable.ToText(density.Profiles));

        string seen = ChildProcess.Python("import csv,sys;r=list(csv.DictReader(open(sys.argv[1],encoding='utf-8')));print(len(r),r[3]['station'],r[3]['radius_mm'],r[3]['density_kg_m3'],r[3]['flags'],r[0]['flags'],sep='|')", folder.PathOf("profiles.csv"));

        string expected = density.Profiles[0].Density[3].ToString("G7", System.Globalization.CultureInfo.InvariantCulture);
        Assert.Equal($"{density.Profiles.Sum(p => p.RadiusMetres.Length)}|0|4.464|{expected}|bridged asymmetric|", seen.Trim());
    }

    [Fact]
    public void WriteSummary_LaterOneWithoutProfiles_LeavesNothingOfTheEarlier()
    {
        using RunFolder run = Open();
        // Without fields, so that no time goes into maps.
        run.WriteSummary(SampleDensity.Summary(SampleDensity.Axisymmetric(stations: 1) with { Fields = [], SigmaRandom = [] }), CancellationToken.None);
        JsonElement density = JsonDocument.Parse(File.ReadAllText(folder.PathOf("run/run.json"))).RootElement.GetProperty("density");
        string[] left = ["profiles.csv", "maps/density_profiles.png", "maps/uncertainty_budget.png"];
        Assert.All(left, name => Assert.True(File.Exists(folder.PathOf($"run/{name}")), name));
        Assert.Equal("axisymmetric", density.GetProperty("shape").GetString());
        Assert.Equal(0.0044, density.GetProperty("budget").GetProperty("lines")[1].GetProperty("density_kg_m3").GetDouble());
        Assert.False(density.GetProperty("checks")[1].GetProperty("passes").GetBoolean());

        run.WriteSummary(SampleRun.Summary(), CancellationToken.None);

        Assert.All(left, name => Assert.False(File.Exists(folder.PathOf($"run/{name}")), name));
        Assert.True(File.Exists(folder.PathOf("run/maps/density_gradient_path_x.png")));
        Assert.Null(RunFolder.ReadSummary(folder.PathOf("run")).Density);
    }

    [Fact]
    public void Restart_ProfilesTable_IsDeletedWithTheOtherResults()
    {
        Open().Dispose();
        File.WriteAllText(folder.PathOf("run/profiles.csv"), ProfilesTable.ToText(SampleDensity.Axisymmetric().Profiles));

        Open(restart: true).Dispose();

        Assert.False(File.Exists(folder.PathOf("run/profiles.csv")));
    }

    [Fact]
    public void Read_RunJsonFromBeforeTheDensity_SaysHowToMend()
    {
        NetCdfContent content = SummaryFile.ToContent(SampleDensity.Summary(SampleDensity.Planar()), "id");

        Assert.Contains("finish this run", Assert.Throws<InputDataException>(() => DensityFile.Read(content, null, "run")).Message, StringComparison.Ordinal);
    }

    private RunFolder Open(bool restart = false) =>
        RunFolder.Open(folder.PathOf("run"), SampleRun.Identity(), new RunOpening { Restart = restart }, TimeProvider.System, CancellationToken.None);

    private DensityResult Roundtrip(DensityResult density)
    {
        Write(density);
        DensityDocument? words = JsonSerializer.Deserialize<DensityDocument>(JsonSerializer.Serialize(DensityDocument.Of(density), RunJson.Options), RunJson.Options);
        return DensityFile.Read(NetCdfFile.Read(folder.PathOf("summary.nc")), words, folder.Root)!;
    }

    private void Write(DensityResult density) => NetCdfFile.Write(folder.PathOf("summary.nc"), SummaryFile.ToContent(SampleDensity.Summary(density), "id"));

    private JsonElement Python(string program)
    {
        string output = ChildProcess.Python($"import sys, json\npath = sys.argv[1]\n{program}\nprint(json.dumps(out))", folder.PathOf("summary.nc"));
        return JsonDocument.Parse(output).RootElement;
    }

    private static string Bits(float[] values) => Convert.ToHexString(MemoryMarshal.AsBytes(values.AsSpan()));

    private static string Bits(RadialProfile p) => string.Join(
        ' ',
        new double[][] { [p.Station, p.AxialMetres, p.AxisX, p.AxisY], p.RadiusMetres, p.Density, p.SigmaDensity, p.SigmaDensityRandom, p.Temperature, p.SigmaTemperature, p.DensityLeft, p.DensityRight }
            .Select(values => Convert.ToHexString(MemoryMarshal.AsBytes(values.AsSpan()))).Append(string.Join(',', p.Flags)));

    private static RadialProfile Cut(RadialProfile p, int count) => p with
    {
        RadiusMetres = p.RadiusMetres[..count],
        Density = p.Density[..count],
        SigmaDensity = p.SigmaDensity[..count],
        SigmaDensityRandom = p.SigmaDensityRandom[..count],
        Temperature = p.Temperature[..count],
        SigmaTemperature = p.SigmaTemperature[..count],
        DensityLeft = p.DensityLeft[..count],
        DensityRight = p.DensityRight[..count],
        Flags = p.Flags[..count],
    };

    private static RadialProfile Empty(RadialProfile p) => Cut(p, 0);
}
