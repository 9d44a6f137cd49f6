using System.Text.Json.Nodes;
using BosFlow.Camera;
using BosFlow.Cli.Lenses;
using BosFlow.Cli.Tests.Kit;
using BosFlow.Footage;
using BosFlow.Results.Maps;
using BosFlow.Synthesis;
using BosFlow.TestKit;

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

        ProcessResult result = await CliRun.InsideAsync(folder.Path, "calibrate", "--checkerboard", "8x5", "--square-mm", "20", "view*.png", "--output", "lens.toml", "--json");

        Assert.True(result.ExitCode == ExitCode.Done, result.Error);
        JsonNode document = JsonNode.Parse(result.Output)!;
        Assert.True((double)document["reprojection_rms_px"]! < 0.1, result.Output);
        Assert.True(File.Exists(folder.PathOf("lens.png")));
        var found = new LensModel(LensFileReader.Read(folder.PathOf("lens.toml")));
        Assert.True(PlaceError(found) < 0.1, $"{PlaceError(found)} px; {result.Output}");
    }

    [Fact]
    public async Task Calibrate_ParallelViews_WritesNoLensFile()
    {
        TakePictures(turn: 0);

        ProcessResult result = await CliRun.InsideAsync(folder.Path, "calibrate", "--checkerboard", "8x5", "--square-mm", "20", "view*.png");

        Assert.True(result.ExitCode is ExitCode.DoneWithLosses, result.Output + result.Error);
        Assert.Contains("Not good enough: ", result.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(folder.PathOf("lens.toml")));
    }

    [Fact]
    public async Task Calibrate_WithoutTarget_SaysWhatToGive()
    {
        ProcessResult result = await CliRun.InsideAsync(folder.Path, "calibrate", "a.png");

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

    private void TakePictures(double turn)
    {
        var lens = new LensModel(Truth);
        (double X, double Y)[] tilts = [(0, 0), (1, 0), (-1, 0), (0, 1), (0, -1), (0.7, 0.7), (-0.7, 0.7), (0.7, -0.7), (-0.7, -0.7), (0.9, 0.4)];
        (double X, double Y)[] places = [(-70, -40), (-125, -95), (-15, -95), (-125, 15), (-15, 15), (-70, -95), (-70, 15), (-125, -40), (-15, -40), (-70, -40)];
        for (int i = 0; i < tilts.Length; i++)
        {
            var pose = new TargetPose((turn * tilts[i].X, turn * tilts[i].Y, 0.02 * i), (places[i].X / 1e3, places[i].Y / 1e3, 0.3));
            GrayImage picture = CalibrationPhotographer.Take(CalibrationPhotographer.Checkerboard(8, 5, 0.02), pose, lens, 1, (ulong)i + 1);
            GrayPicture.WritePng(folder.PathOf(FormattableString.Invariant($"view{i:00}.png")), picture, 8);
        }
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
