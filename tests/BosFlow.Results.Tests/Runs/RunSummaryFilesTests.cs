using System.Text.Json;
using BosFlow.Pipeline;
using BosFlow.Results.Runs;
using BosFlow.TestKit;

namespace BosFlow.Results.Tests.Runs;

public sealed class RunSummaryFilesTests(FinishedRun run) : IClassFixture<FinishedRun>
{
    [Fact]
    public void WriteSummary_ReadBack_IsTheSame()
    {
        RunSummary summary = SampleRun.Summary();

        RunSummary read = RunFolder.ReadSummary(run.Root);
        Assert.Equal(summary.Statistics.MeanU, read.Statistics.MeanU);
        Assert.Equal(summary.Statistics.Count, read.Statistics.Count);
        Assert.Equal(summary.Statistics.PrevailingFlags, read.Statistics.PrevailingFlags);
        Assert.Equal(summary.DerivedFields.Select(f => (f.Name, f.Title, f.Unit)), read.DerivedFields.Select(f => (f.Name, f.Title, f.Unit)));
        Assert.Equal(summary.DerivedFields[2].Sigma, read.DerivedFields[2].Sigma);
        Assert.Equal(summary.Frames.Select(f => f with { Warnings = [] }), read.Frames.Select(f => f with { Warnings = [] }));
        Assert.Equal(summary.Frames.Select(f => string.Join('\n', f.Warnings)), read.Frames.Select(f => string.Join('\n', f.Warnings)));
        Assert.Equal(summary.Warnings, read.Warnings);
        Assert.Equal(summary.Scale, read.Scale);
        Assert.Equal(summary.Sampling, read.Sampling);
        Assert.Equal(30, read.Case.KnifeEdgeDegrees);
        Assert.Equal(summary.Reference.Image.Pixels.ToArray(), read.Reference.Image.Pixels.ToArray());
    }

    [Fact]
    public void WriteSummary_RunJson_HoldsProvenance()
    {
        JsonElement json = JsonDocument.Parse(File.ReadAllText(run.File("run.json"))).RootElement;

        Assert.Equal("complete", json.GetProperty("state").GetString());
        Assert.Equal(12, json.GetProperty("frames_asked").GetInt32());
        Assert.Equal(11, json.GetProperty("frames_measured").GetInt32());
        Assert.Equal(5, json.GetProperty("frames_failed")[0].GetInt32());
        Assert.Equal(Environment.ProcessorCount, json.GetProperty("cores").GetInt32());
        JsonElement identity = json.GetProperty("identity");
        Assert.Equal("22dd", identity.GetProperty("inputs")[2].GetProperty("sha256").GetString());
        Assert.Equal(1.2, identity.GetProperty("case").GetProperty("rig").GetProperty("lens_to_flow_metres").GetDouble());
        Assert.Equal("similarity", identity.GetProperty("case").GetProperty("registration").GetProperty("motion").GetString());
        Assert.Equal(90.5, identity.GetProperty("case").GetProperty("region").GetProperty("exclude")[0].GetProperty("corners")[2][1].GetDouble());
    }

    [Fact]
    public void WriteSummary_FramesTable_ParsesWithPythonsCsvModule()
    {
        string seen = ChildProcess.Python("import csv,sys;r=list(csv.DictReader(open(sys.argv[1],encoding='utf-8')));print(len(r),r[7]['noise_floor_u_px'],r[7]['sigma_factor_u'],r[1]['warnings'],r[5]['failure'],sep='\\n')", run.File("frames.csv"));

        Assert.Equal(["12", "0.0091", "1.3", "The board moved by 9 px, close to the limit. | Text, with \"quotes\" & <marks>.", "The frame is black: its mean level is 0.4 of 255 <b>."], seen.TrimEnd().Split('\n'));
    }

    [Fact]
    public void WriteSummary_Netcdf_OpensInXarrayWithUnitsAndTwins()
    {
        string seen = ChildProcess.Python(
            "import sys,xarray as x;d=x.open_dataset(sys.argv[1]);g=d.density_gradient_path_x;print(g.dims,g.units,d.sigma_density_gradient_path_x.units,g.x.units,g.x_flow_mm.units,float(g.x_flow_mm[1]-g.x_flow_mm[0])/16,sorted(d.coords))",
            run.File("summary.nc"));

        Assert.Equal("('y', 'x') kg m-3 kg m-3 px mm 0.186 ['x', 'x_flow_mm', 'y', 'y_flow_mm']", seen.Trim());
    }

    [Fact]
    public void WriteSummary_Maps_AreThoseOfTheReport()
    {
        string page = File.ReadAllText(run.File("report.html"));

        string[] maps = Directory.GetFiles(run.File("maps"));
        Assert.Equal(9, maps.Length);
        Assert.All(maps, map => Assert.Contains(Convert.ToBase64String(File.ReadAllBytes(map)), page, StringComparison.Ordinal));
    }

    [Fact]
    public void Render_FromTheSummaryAlone_GivesTheSamePage()
    {
        using var copy = new TemporaryFolder();
        foreach (string name in new[] { "run.json", "summary.nc", "reference.nc", "frames.csv" })
            File.Copy(run.File(name), copy.PathOf(name));

        string page = RunFolder.Render(copy.Root, null, TimeProvider.System, _ => { }, CancellationToken.None);

        Assert.Equal(File.ReadAllText(run.File("report.html")), File.ReadAllText(page));
    }
}
