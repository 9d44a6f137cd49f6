using System.Text.Json.Nodes;
using BosFlow.Cli.Doctor;
using BosFlow.Cli.Tests.Kit;
using BosFlow.Media;
using BosFlow.TestKit;

namespace BosFlow.Cli.Tests.Commands;

public sealed class DoctorCommandTests
{
    private static readonly NativeLibraryStatus OpenCv = new("OpenCV", true, true, "4.13.0");
    private static readonly NativeLibraryStatus NoOpenCv = new("OpenCV", false, true, "does not load: apt-get install libgtk-3-0");
    private static readonly NativeLibraryStatus NoFfmpeg = new("ffmpeg", false, false, "not on PATH: apt-get install ffmpeg");

    [Fact]
    public async Task Doctor_OnAMachineThatRunsTheTests_FindsWhatIsNeeded()
    {
        using var folder = new TemporaryFolder();

        ProcessResult result = await CliRun.InsideAsync(folder.Root, "doctor");
        ProcessResult json = await CliRun.InsideAsync(folder.Root, "doctor", "--json");

        Assert.Equal(ExitCode.Done, result.ExitCode);
        string[] lines = result.Output.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        foreach (string name in new[] { "program", "system", "cores", "memory", "vectors", "OpenCV", "ffmpeg", "disk" })
            Assert.Contains(lines, line => line.Contains(name, StringComparison.Ordinal));
        Assert.Equal(lines.Length, JsonNode.Parse(json.Output)!["checks"]!.AsArray().Count);
        Assert.Empty(Directory.EnumerateFileSystemEntries(folder.Root));
    }

    [Fact]
    public void All_SomethingNeededIsMissing_IsMarkedSo()
    {
        IReadOnlyList<MachineCheck> checks = new MachineChecks([NoOpenCv, NoFfmpeg], Path.GetTempPath()).All();

        Assert.Equal(CheckState.Missing, checks.Single(check => check.Name == "OpenCV").State);
        Assert.Equal(CheckState.CouldBeBetter, checks.Single(check => check.Name == "ffmpeg").State);
        Assert.Contains("apt-get install libgtk-3-0", checks.Single(check => check.Name == "OpenCV").Finding, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(true, ExitCode.Done)]
    [InlineData(false, ExitCode.Failed)]
    public void Tell_ByWhatIsMissing_ReturnsItsCode(bool hasOpenCv, int code)
    {
        using var output = new StringWriter();
        IReadOnlyList<MachineCheck> checks = new MachineChecks([hasOpenCv ? OpenCv : NoOpenCv, NoFfmpeg], Path.GetTempPath()).All();

        int actual = Cli.Commands.DoctorCommand.Tell(checks, Talking.To(output, TextWriter.Null));

        Assert.Equal(code, actual);
        Assert.Contains(hasOpenCv ? "ok      OpenCV" : "missing OpenCV", output.ToString(), StringComparison.Ordinal);
        Assert.Contains("better  ffmpeg", output.ToString(), StringComparison.Ordinal);
    }
}
