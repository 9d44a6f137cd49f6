using BosFlow.Cli.Scenes;
using BosFlow.TestKit;
using BosFlow.Validation;

namespace BosFlow.Cli.Tests.Scenes;

public sealed class ValidationReportTests
{
    private static readonly StudyResult Study = new(
        "Bias, \"small\"", "How it was made.",
        [new Figure("bias", "largest bias", 0.0021, "px", null, 0.005), new Figure("bias", "slope", 1.5, "1", 0.97, 1.03), new Figure("bias", "bound, exact", 0.5, "px", null, null, "for information")],
        [new StudyTable("bias", "Bias", ["shift (px)", "bias (px)"], [[-2.5, 0.001], [2.5, double.NaN]])]);

    [Fact]
    public void Write_Study_GivesPageAndTables()
    {
        using var folder = new TemporaryFolder();
        ValidationReport.Write(folder.PathOf("out", "x")[..^2], [Study], "Made by a test.");

        string page = File.ReadAllText(folder.PathOf("out", "validation.md"));
        Assert.Contains("1 of 2 required figures are met", page, StringComparison.Ordinal);
        Assert.Contains("| largest bias | 0.0021 | px | at most 0.005 | met |", page, StringComparison.Ordinal);
        Assert.Contains("| slope | 1.5 | 1 | 0.97 to 1.03 | MISSED |", page, StringComparison.Ordinal);
        Assert.Equal("shift (px),bias (px)\n-2.5,0.001\n2.5,NaN\n", File.ReadAllText(folder.PathOf("out", "bias.csv")));
        Assert.Contains("\"bound, exact\"", File.ReadAllText(folder.PathOf("out", "figures.csv")), StringComparison.Ordinal);
    }

    [Fact]
    public void Figures_Table_AlignsColumns()
    {
        string[] lines = [.. ValidationReport.Figures(Study).Lines()];
        Assert.Equal(4, lines.Length);
        Assert.StartsWith("figure", lines[0], StringComparison.Ordinal);
        Assert.EndsWith("MISSED", lines[2], StringComparison.Ordinal);
    }
}
