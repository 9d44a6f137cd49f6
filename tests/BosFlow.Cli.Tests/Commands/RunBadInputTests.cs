using BosFlow.Cli.Tests.Kit;
using BosFlow.TestKit;

namespace BosFlow.Cli.Tests.Commands;

/// <summary>Bad input that is found before any work: one sentence, exit code 2, nothing written.</summary>
public sealed class RunBadInputTests : IDisposable
{
    private readonly SmallCase small = new(frames: 2);

    [Fact]
    public async Task Run_CaseFileMissing_SaysHowToMakeOne() =>
        await Refused("There is no case file", "bosflow new FOLDER", caseFile: "other.toml");

    [Fact]
    public async Task Run_CaseFileEmpty_IsRefused()
    {
        small.WriteCase(" \n");

        await Refused("case.toml is empty");
    }

    [Fact]
    public async Task Run_ReadoutThatTheFootageDoesNotTell_IsRefused()
    {
        small.WriteCase(SmallCase.Text.Replace("motion = \"none\"", "readout_ms = \"estimate\"", StringComparison.Ordinal));

        await Refused("frames can be followed row by row", "give it in ms", options: ["--quiet"]);
    }

    [Fact]
    public async Task Run_CaseFileIsAPicture_IsRefused() => await Refused("is no text", caseFile: "reference.png");

    [Fact]
    public async Task Run_CaseFileIsADevice_IsRefused() => await Refused("is empty, a pipe or a device", caseFile: "/dev/zero");

    [Fact]
    public async Task Run_CaseFileInAnotherEncoding_IsRefused()
    {
        await File.WriteAllBytesAsync(Path.Combine(small.Folder, "latin.toml"), [.. "# Stra"u8, 0xDF, .. "e\n"u8]);

        await Refused("is no UTF-8 text (byte 7 fits no letter)", caseFile: "latin.toml");
    }

    [Fact]
    public async Task Run_CaseFileAboveOneMegabyte_IsRefused()
    {
        await File.WriteAllTextAsync(Path.Combine(small.Folder, "large.toml"), new string('#', (1 << 20) + 1));

        await Refused("it is larger than 1 MB", caseFile: "large.toml");
    }

    [Fact]
    public async Task Run_BracketsInBracketsWithoutEnd_IsRefused()
    {
        small.Append("[region]\nexclude_px = " + new string('[', 100_000) + "\n");

        await Refused("brackets stand in brackets more than 32 deep");
    }

    [Fact]
    public async Task Run_UnknownKey_IsRefusedWithTheNearest()
    {
        small.Append("[displacement_]\n");

        await Refused("did you mean [displacement]?");
    }

    [Fact]
    public async Task Run_ManyProblems_EachOnItsLine()
    {
        small.Append("[output]\nfolde = \"x\"\nknife_edge_deg = 999\n");

        ProcessResult result = await Refused("output.folde is not known; did you mean folder?", "output.knife_edge_deg = 999 is out of range");

        Assert.Equal(2, result.Error.Split('\n', StringSplitOptions.RemoveEmptyEntries).Length);
    }

    [Fact]
    public async Task Run_NoFrameMatches_IsRefused()
    {
        small.WriteCase(SmallCase.Text.Replace("frames/*.png", "pictures/*.png", StringComparison.Ordinal));

        await Refused("pictures");
    }

    [Fact]
    public async Task Run_FrameIsEmptyFile_IsRefused()
    {
        small.Write(SmallCase.FrameName(1), string.Empty);

        await Refused("f1.png", "empty");
    }

    [Fact]
    public async Task Run_FrameIsTextNamedPng_IsRefused()
    {
        small.Write(SmallCase.FrameName(0), "This is no picture at all, only its name says so.");

        await Refused("f0.png");
    }

    [Fact]
    public async Task Run_FrameOfAnotherSize_IsRefused()
    {
        small.WriteFlat(SmallCase.FrameName(1), 96, 64, 100);

        await Refused("f1.png", "96 x 64");
    }

    [Fact]
    public async Task Run_ReferenceMissing_IsRefused()
    {
        File.Delete(small.PathOf("reference.png"));

        await Refused("reference.png");
    }

    [Fact]
    public async Task Run_ReferenceTruncated_IsRefused()
    {
        small.Truncate("reference.png", 0.5);

        await Refused("reference.png");
    }

    [Fact]
    public async Task Run_ReferenceOfAnotherSize_IsRefused()
    {
        small.WriteFlat("reference.png", 96, 64, 100);

        await Refused("reference.png has 96 x 64 px, the frames have 192 x 128 px");
    }

    [Fact]
    public async Task Run_MaskOutsideThePicture_IsRefused()
    {
        small.Append("[region]\nexclude = [[[0,0],[500,0],[500,90]]]\n");

        await Refused("region.exclude, polygon 1", "192 x 128");
    }

    [Fact]
    public async Task Run_RectangleOutsideThePicture_IsRefused()
    {
        small.Append("[region]\ninterest_px = [100, 0, 100, 50]\n");

        await Refused("region.interest", "192 x 128");
    }

    [Fact]
    public async Task Run_FramesThatDoNotExist_AreRefused() => await Refused("--frames = \"0:9\"", "has 2 frames", options: ["--frames", "0:9"]);

    [Fact]
    public async Task Run_RangeThatIsNone_IsRefused() => await Refused("--frames x:y is no frame range", options: ["--frames", "x:y"]);

    [Fact]
    public async Task Run_NoThreads_IsRefused() => await Refused("--threads 0 is not possible", options: ["--threads", "0"]);

    [Fact]
    public async Task Run_OutputFolderOfSomethingElse_IsRefusedAndUntouched()
    {
        small.Write("mine/letter.txt", "private");

        await Refused("letter.txt", options: ["--output", "mine"]);

        Assert.Equal(["letter.txt"], Directory.EnumerateFileSystemEntries(small.PathOf("mine")).Select(Path.GetFileName));
    }

    [Fact]
    public async Task Run_OutputFolderIsAFile_IsRefused()
    {
        small.Write("note", "text");

        await Refused("is a file", options: ["--output", "note"]);
    }

    [Fact]
    public async Task Run_OutputFolderThatNobodyCanMake_IsRefused() => await Refused("/proc/results cannot be written", options: ["--output", "/proc/results"]);

    [Fact]
    public async Task Run_ReferenceIsAFolder_IsRefused()
    {
        File.Delete(small.PathOf("reference.png"));
        Directory.CreateDirectory(small.PathOf("reference.png"));

        await Refused("reference.png");
    }

    [Fact]
    public async Task Run_ReferenceFramesThatDoNotExist_AreRefused()
    {
        small.WriteCase(SmallCase.Text.Replace("image = \"reference.png\"", "use = \"0:7\"", StringComparison.Ordinal));

        await Refused("reference.use = \"0:7\"", "has 2 frames");
    }

    [Fact]
    public async Task Run_AsProcess_SameSentenceAndCode()
    {
        small.Append("[output]\nfolde = \"x\"\n");

        ProcessResult result = await CliRun.ProcessAsync(small.Folder, "run", "case.toml");

        Assert.Equal(ExitCode.BadInput, result.ExitCode);
        Assert.Empty(result.Output);
        Assert.Equal("error: case.toml, line 15: output.folde is not known; did you mean folder?\n", result.Error);
        Assert.False(Directory.Exists(small.RunFolder));
    }

    public void Dispose() => small.Dispose();

    private async Task<ProcessResult> Refused(params string[] words) => await Refused(words, "case.toml", []);

    private async Task<ProcessResult> Refused(string words, string moreWords = "", string caseFile = "case.toml", string[]? options = null) =>
        await Refused([words, moreWords], caseFile, options ?? []);

    private async Task<ProcessResult> Refused(string[] words, string caseFile, string[] options)
    {
        string[] before = Listing();

        ProcessResult result = await CliRun.InsideAsync(small.Folder, ["run", caseFile, .. options]);

        Assert.True(result.ExitCode == ExitCode.BadInput, $"exit code {result.ExitCode}: {result.Error}");
        Assert.All(words, word => Assert.Contains(word, result.Error, StringComparison.Ordinal));
        Assert.All(result.Error.Split('\n', StringSplitOptions.RemoveEmptyEntries), line => Assert.StartsWith("error: ", line, StringComparison.Ordinal));
        Assert.DoesNotContain("   at ", result.Error, StringComparison.Ordinal);
        Assert.Empty(result.Output);
        Assert.Equal(before, Listing());
        return result;
    }

    private string[] Listing() => [.. Directory.EnumerateFileSystemEntries(small.Folder, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal)];
}
