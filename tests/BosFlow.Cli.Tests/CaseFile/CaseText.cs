using BosFlow.Cli.CaseFile;

namespace BosFlow.Cli.Tests.CaseFile;

/// <summary>Case texts for the tests.</summary>
internal static class CaseText
{
    public const string Path = "/tmp/nowhere/case.toml";

    public const string Smallest = "[footage]\nframes = \"f*.png\"\n";

    public static LoadedCase Parse(string text) => CaseFileReader.Parse(text, Path);

    public static IReadOnlyList<string> Problems(string text) =>
        Assert.Throws<ConfigurationException>(() => Parse(text)).Problems;

    public static string Problem(string text) => Assert.Single(Problems(text));
}
