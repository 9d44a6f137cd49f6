using BosFlow.Cli.Running;
using BosFlow.Cli.Tests.Kit;
using BosFlow.Pipeline;

namespace BosFlow.Cli.Tests.Running;

public sealed class RunProgressDisplayTests
{
    [Fact]
    public void Report_NoTerminal_IsOneLineAStage()
    {
        Assert.Equal(
            "Making the reference picture.\nMeasuring 3 frames; 1 of 4 are there already.\nWriting summary, maps and report.\n",
            Show(terminal: false).ReplaceLineEndings("\n"));
    }

    [Fact]
    public void Report_Terminal_IsOneLineThatRewritesItselfAndVanishes()
    {
        string text = Show(terminal: true);

        Assert.Contains("reference picture, frame 2 of 2", text, StringComparison.Ordinal);
        Assert.Contains("frame 1 of 4", text, StringComparison.Ordinal);
        Assert.Contains("frame 4 of 4, ", text, StringComparison.Ordinal);
        Assert.Contains(" frames/s, 0 s left, 1 not measurable", text, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', text);
        Assert.EndsWith("\r\u001b[K", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Report_TerminalButQuiet_IsSilent()
    {
        Assert.Empty(Show(terminal: true, "--quiet"));
    }

    private static string Show(bool terminal, params string[] options)
    {
        using var error = new StringWriter();
        CommandEnvironment environment = Talking.Environment(TextWriter.Null, error, terminal);
        Show(environment, options);
        return error.ToString();
    }

    private static void Show(CommandEnvironment environment, string[] options)
    {
        using var display = new RunProgressDisplay(Talking.Of(environment, options), environment);
        display.Report(new RunProgress(RunStep.Reference, 0, 2, 0));
        display.Report(new RunProgress(RunStep.Reference, 2, 2, 0));
        display.Report(new RunProgress(RunStep.Frames, 1, 4, 0));
        display.Report(new RunProgress(RunStep.Frames, 2, 4, 0));
        display.Report(new RunProgress(RunStep.Frames, 3, 4, 1));
        display.Report(new RunProgress(RunStep.Frames, 4, 4, 1));
        display.Report(new RunProgress(RunStep.Summary, 4, 4, 1));
    }
}
