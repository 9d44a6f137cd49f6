using BosFlow.Cli.CommandLine;
using BosFlow.Cli.Tests.Kit;

namespace BosFlow.Cli.Tests.CommandLine;

public sealed class TalkTests
{
    [Theory]
    [InlineData("", "result\n", "remark\nwarning: careful\nerror: wrong\n")]
    [InlineData("--quiet", "result\n", "warning: careful\nerror: wrong\n")]
    [InlineData("--verbose", "result\n", "remark\ndetail\nwarning: careful\nerror: wrong\n")]
    [InlineData("--json", "{\n  \"document\": \"thing\",\n  \"version\": 3,\n  \"name\": \"Öl µm\"\n}\n", "remark\nwarning: careful\nerror: wrong\n")]
    public void Talk_ByOption_SaysWhatIsAskedWhereItBelongs(string option, string expectedOutput, string expectedError)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();

        SayEverything(Talking.To(output, error, option.Length == 0 ? [] : [option]));

        Assert.Equal(expectedOutput, output.ToString().ReplaceLineEndings("\n"));
        Assert.Equal(expectedError, error.ToString().ReplaceLineEndings("\n"));
    }

    [Theory]
    [InlineData(true, false, true)]
    [InlineData(true, true, false)]
    [InlineData(false, false, false)]
    public void Warn_OnATerminalUnlessForbidden_IsColoured(bool terminal, bool noColor, bool coloured)
    {
        using var error = new StringWriter();

        Talking.Of(Talking.Environment(TextWriter.Null, error, terminal), noColor ? ["--no-color"] : []).Warn("careful");

        Assert.Equal(coloured, error.ToString().Contains('\u001b', StringComparison.Ordinal));
        Assert.Contains("warning: ", error.ToString(), StringComparison.Ordinal);
    }

    private static void SayEverything(Talk talk)
    {
        talk.Result("result");
        talk.Say("remark");
        talk.Detail("detail");
        talk.Warn("careful");
        talk.Fail("wrong");
        talk.Document("thing", 3, new System.Text.Json.Nodes.JsonObject { ["name"] = "Öl µm" });
    }
}
