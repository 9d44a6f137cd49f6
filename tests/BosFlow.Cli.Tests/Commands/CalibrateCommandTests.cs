using System.Text.Json.Nodes;
using BosFlow.Camera;
using BosFlow.Cli.Lenses;
using BosFlow.Cli.Tests.Kit;
using BosFlow.Footage;
using BosFlow.Results.Maps;
using BosFlow.Results.NetCdf;
using BosFlow.Synthesis;
using BosFlow.TestKit;
using BosFlow.Validation;

namespace BosFlow.Cli.Tests.Commands;

public sealed class CalibrateCommandTests : IDisposable
{
    // The corner of the picture is moved inward by 5 %.
    private static readonly LensParameters Truth = LensParameters.Undistorted(640, 480, 600) with { CentreX = 322, CentreY = 238, Radial1 = -0.102 };

    private readonly TemporaryFolder folder = new();

    [Fact]
    public async Task Calibrate_ExactCheckerboards_FindsPlacesWithinATenthOfAPixel()
    {
        TakePictures(turn: 0.45);

        ProcessResult result = await CliRun.InsideAsync(folder.Root, "calibrate", "--checkerboard", "11x8", "--square-mm", "20", "view*.png", "--output", "lens.toml", "--json");

        Assert.True(result.ExitCode == ExitCode.Done, result.Error);
        JsonNode document = JsonNode.Parse(result.Output)!;
        Assert.True((double)document["reprojection_rms_px"]! < 0.15, result.Output);
        Assert.True(File.Exists(folder.PathOf("lens.png")));
        var found = new LensModel(LensFileReader.Read(folder.PathOf("lens.toml")));
        Assert.True(PlaceError(found) < 0.1, $"{PlaceError(found)} px; {result.Output}");
    }

    [Fact]
    public async Task Run_ThroughTheCalibratedLens_MeasuresWithinAHundredthOfAPixel()
    {
        TakePictures(turn: 0.45);
        await CliRun.InsideAsync(folder.Root, "calibrate", "--checkerboard", "11x8", "--square-mm", "20", "view*.png");
        var lens = new LensModel(Truth);
        GrayPicture.WritePng(folder.PathOf("reference.png"), LensScene.Render(lens, (_, _) => (0, 0), 3, CancellationToken.None), 8);
        GrayPicture.WritePng(folder.PathOf("frame.png"), LensScene.Render(lens, LensStudy.Truth, 3, CancellationToken.None), 8);
        folder.Write("case.toml", "[footage]\nframes = \"frame.png\"\n[reference]\nimage = \"reference.png\"\n[registration]\nmotion = \"none\"\n[camera]\nlens = \"lens.toml\"\n");

        ProcessResult result = await CliRun.InsideAsync(folder.Root, "run", "case.toml", "--quiet");

        Assert.True(result.ExitCode == ExitCode.Done, result.Error);
        double rms = DisplacementError(NetCdfFile.Read(folder.PathOf("run", "frames", "000000.nc")));
        Assert.True(rms < 0.01, $"{rms} px");
        Assert.Contains("lens.toml: pinhole", File.ReadAllText(folder.PathOf("run", "report.html")), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Run_LensOfAnotherSize_IsRefusedBeforeWork()
    {
        folder.Write("lens.toml", "[lens]\nmodel = \"pinhole\"\npicture_width_px = 1280\npicture_height_px = 720\nfocal_length_x_px = 900.0\nfocal_length_y_px = 900.0\ncentre_x_px = 639.5\ncentre_y_px = 359.5\n");
        GrayPicture.WritePng(folder.PathOf("frame.png"), LensScene.Render(new LensModel(Truth), (_, _) => (0, 0), 3, CancellationToken.None), 8);
        folder.Write("case.toml", "[footage]\nframes = \"frame.png\"\n[reference]\nimage = \"frame.png\"\n[camera]\nlens = \"lens.toml\"\n");

        ProcessResult result = await CliRun.InsideAsync(folder.Root, "run", "case.toml");

        Assert.Equal(ExitCode.BadInput, result.ExitCode);
        Assert.Contains("lens.toml holds for pictures of 1280 x 720 px and the footage has 640 x 480 px", result.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(folder.PathOf("run")));
    }

    [Fact]
    public async Task Calibrate_ParallelViews_WritesNoLensFile()
    {
        TakePictures(turn: 0);

        ProcessResult result = await CliRun.InsideAsync(folder.Root, "calibrate", "--checkerboard", "11x8", "--square-mm", "20", "view*.png");

        Assert.True(result.ExitCode is ExitCode.DoneWithLosses, result.Output + result.Error);
        Assert.Contains("Not good enough: ", result.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(folder.PathOf("lens.toml")));
    }

    [Fact]
    public async Task Calibrate_WithoutTarget_SaysWhatToGive()
    {
        ProcessResult result = await CliRun.InsideAsync(folder.Root, "calibrate", "a.png");

        Assert.Equal(ExitCode.BadInput, result.ExitCode);
        Assert.Contains("--checkerboard 9x6 --square-mm 20", result.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Parse_UnknownKeyAndMissingOnes_TellsAll()
    {
        ConfigurationException problem = Assert.Throws<ConfigurationException>(() => LensFileReader.Parse("[lens]\nmodel = \"pinhole\"\nradial_5 = 1.0\n", "lens.toml"));

        Assert.Contains(problem.Problems, sentence => sentence.StartsWith("lens.toml, line 3: radial_5 is not known here", StringComparison.Ordinal));
        Assert.Contains(problem.Problems, sentence => sentence.Contains("lens.picture_width_px is missing", StringComparison.Ordinal));
    }

    public void Dispose() => folder.Dispose();

    // A target of 200 x 140 mm that reaches all corners of the picture.
    private void TakePictures(double turn)
    {
        var lens = new LensModel(Truth);
        Func<double, double, double> board = CalibrationPhotographer.Checkerboard(11, 8, 0.02);
        (double X, double Y)[] tilts = [(0, 0), (1, 0), (-1, 0), (0, 1), (0, -1), (0.7, 0.7), (-0.7, 0.7), (0.7, -0.7), (-0.7, -0.7), (0.5, -1)];
        (double X, double Y)[] places = [(0, 0), (1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, 1), (1, -1), (-1, -1), (0, 0)];
        for (int i = 0; i < tilts.Length; i++)
        {
            var pose = new TargetPose((turn * tilts[i].X, turn * tilts[i].Y, 0.02 * i), (0.14 * places[i].X, 0.1 * places[i].Y, 0.55));
            GrayImage picture = CalibrationPhotographer.Take((x, y) => board(x + 0.1, y + 0.07), pose, lens, 1, (ulong)i + 1);
            GrayPicture.WritePng(folder.PathOf(FormattableString.Invariant($"view{i:00}.png")), picture, 8);
        }
    }

    private static double DisplacementError(NetCdfContent frame)
    {
        (double[] x, double[] y) = (frame.Values<double>("x"), frame.Values<double>("y"));
        (float[] u, float[] v, byte[] flags) = (frame.Values<float>("u"), frame.Values<float>("v"), frame.Values<byte>("flag"));
        int[] measured = [.. Enumerable.Range(0, flags.Length).Where(node => flags[node] == 0)];
        Assert.True(measured.Length > 0.8 * flags.Length);
        double squares = measured.Sum(node =>
        {
            (double trueU, double trueV) = LensStudy.Truth(x[node % x.Length], y[node / x.Length]);
            return Math.Pow(u[node] - trueU, 2) + Math.Pow(v[node] - trueV, 2);
        });
        return Math.Sqrt(squares / (2 * measured.Length));
    }

    private static double PlaceError(LensModel found)
    {
        var lens = new LensModel(Truth);
        double squares = 0;
        int count = 0;
        for (int y = 0; y < 480; y += 12)
        {
            for (int x = 0; x < 640; x += 12)
            {
                (double trueX, double trueY) = lens.ToIdeal(x, y);
                (double foundX, double foundY) = found.ToIdeal(x, y);
                squares += Math.Pow(foundX - trueX, 2) + Math.Pow(foundY - trueY, 2);
                count++;
            }
        }

        return Math.Sqrt(squares / (2 * count));
    }
}
