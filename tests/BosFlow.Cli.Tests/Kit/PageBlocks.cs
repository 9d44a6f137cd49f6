using System.Text.RegularExpressions;
using BosFlow.TestKit;

namespace BosFlow.Cli.Tests.Kit;

/// <summary>Blocks of a document that show a command and what the program prints.</summary>
internal static partial class PageBlocks
{
    private const string Elision = "...";

    /// <summary>The blocks of a page of docs, each with its command in the first line.</summary>
    /// <param name="page">File name of the page.</param>
    public static IEnumerable<string> Of(string page) => Block().Matches(File.ReadAllText(Repository.PathOf("docs", page))).Select(match => match.Groups["body"].Value);

    /// <summary>What is typed after the program's name.</summary>
    /// <param name="block">A block.</param>
    public static string[] Arguments(string block) => block.Split('\n')[0].Split(' ', StringSplitOptions.RemoveEmptyEntries)[2..];

    /// <summary>Fails where a line of the block is not printed, or not in this order.</summary>
    /// <param name="block">A block.</param>
    /// <param name="output">What the program prints.</param>
    /// <param name="comparable">Takes off what differs from run to run; null = nothing.</param>
    public static void AssertPrinted(string block, string output, Func<string, string>? comparable = null)
    {
        comparable ??= line => line;
        string[] lines = block.Split('\n');
        Queue<string> printed = new(output.Split(Environment.NewLine).Select(comparable));
        foreach (string line in lines[1..].Where(line => line != Elision))
        {
            while (printed.Count > 0 && printed.Peek() != comparable(line))
                printed.Dequeue();
            Assert.True(printed.Count > 0, $"The page shows a line that {lines[0]} does not print there: {line}");
            printed.Dequeue();
        }
    }

    [GeneratedRegex(@"```(text|console)\n(?<body>\$ bosflow .*?)\n```", RegexOptions.Singleline)]
    private static partial Regex Block();
}
