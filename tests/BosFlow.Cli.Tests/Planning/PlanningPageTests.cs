using System.Text.RegularExpressions;
using BosFlow.Cli.Tests.Kit;
using BosFlow.TestKit;

namespace BosFlow.Cli.Tests.Planning;

/// <summary>What docs/planning.md shows is what the program prints.</summary>
public sealed partial class PlanningPageTests
{
    private const string Elision = "...";

    public static TheoryData<string> Blocks => [.. TextBlock().Matches(File.ReadAllText(Repository.PathOf("docs", "planning.md"))).Select(match => match.Groups["body"].Value)];

    [Theory]
    [MemberData(nameof(Blocks))]
    public async Task Page_EachCommand_PrintsWhatThePageShows(string block)
    {
        string[] lines = block.Split('\n');
        string[] arguments = lines[0].Split(' ', StringSplitOptions.RemoveEmptyEntries)[2..];

        ProcessResult result = await CliRun.InsideAsync(Repository.Root, [.. arguments, "--quiet"]);

        Assert.Equal(ExitCode.Done, result.ExitCode);
        Queue<string> printed = new(result.Output.Split(Environment.NewLine));
        foreach (string line in lines[1..].Where(line => line != Elision))
        {
            while (printed.Count > 0 && printed.Peek() != line)
                printed.Dequeue();
            Assert.True(printed.Count > 0, $"docs/planning.md shows a line that {lines[0]} does not print there: {line}");
            printed.Dequeue();
        }
    }

    [Fact]
    public void Page_HasTheCommandsOfTheStory()
    {
        Assert.Equal(4, Blocks.Count);
    }

    [GeneratedRegex(@"```text\n(?<body>\$ bosflow .*?)\n```", RegexOptions.Singleline)]
    private static partial Regex TextBlock();
}
