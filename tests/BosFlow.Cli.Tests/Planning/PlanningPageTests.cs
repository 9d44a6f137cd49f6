using BosFlow.Cli.Tests.Kit;
using BosFlow.TestKit;

namespace BosFlow.Cli.Tests.Planning;

/// <summary>What docs/planning.md shows is what the program prints.</summary>
public sealed class PlanningPageTests
{
    public static TheoryData<string> Blocks => [.. PageBlocks.Of("planning.md")];

    [Theory]
    [MemberData(nameof(Blocks))]
    public async Task Page_EachCommand_PrintsWhatThePageShows(string block)
    {
        ProcessResult result = await CliRun.InsideAsync(Repository.Root, [.. PageBlocks.Arguments(block), "--quiet"]);

        Assert.Equal(ExitCode.Done, result.ExitCode);
        PageBlocks.AssertPrinted(block, result.Output);
    }

    [Fact]
    public void Page_HasTheCommandsOfTheStory()
    {
        Assert.Equal(4, Blocks.Count);
    }
}
