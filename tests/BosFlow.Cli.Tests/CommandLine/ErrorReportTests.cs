using BosFlow.Cli.CommandLine;
using BosFlow.Cli.Tests.Kit;

namespace BosFlow.Cli.Tests.CommandLine;

public sealed class ErrorReportTests
{
    public static TheoryData<Exception, int, string> Exceptions => new()
    {
        { new OperationCanceledException(), 130, "error: Interrupted; nothing is half-written. Give the same command again: it does what is left.\n" },
        { new ConfigurationException(["One is wrong.", "Another too."]), 2, "error: One is wrong.\nerror: Another too.\n" },
        { new InputDataException("a.png is no picture; give one."), 2, "error: a.png is no picture; give one.\n" },
        { new WorkFailedException("None of the 3 frames could be measured."), 1, "error: None of the 3 frames could be measured.\n" },
        { new IOException("No space left on device"), 1, "error: Reading or writing failed: No space left on device. For details, run it again with --verbose.\n" },
        { new UnauthorizedAccessException("Access to the path '/x' is denied."), 1, "error: Access was refused: Access to the path '/x' is denied. Change the permissions, or choose another folder with --output.\n" },
        { new DllNotFoundException("x"), 1, "error: A native library is missing on this machine; bosflow doctor says which and how to install it.\n" },
        { new AggregateException(new OperationCanceledException(), new AggregateException(new InputDataException("b.png is empty."))), 2, "error: b.png is empty.\n" },
        { new AggregateException(new OperationCanceledException()), 130, "error: Interrupted; nothing is half-written. Give the same command again: it does what is left.\n" },
        { new InvalidOperationException("odd"), 1, "error: This is a fault in bosflow (InvalidOperationException): odd. For details, run it again with --verbose.\n" },
    };

    [Theory]
    [MemberData(nameof(Exceptions))]
    public void Tell_EachKindOfException_GivesItsSentenceAndCode(Exception exception, int code, string text)
    {
        (int actual, string error) = Tell(exception);

        Assert.Equal(code, actual);
        Assert.Equal(text, error);
    }

    [Fact]
    public void Tell_UnexpectedWithALog_NamesTheLog()
    {
        var exception = new InvalidOperationException("odd");
        exception.Data[ErrorReport.LogPathKey] = "/run/log.txt";

        (_, string error) = Tell(exception);

        Assert.Equal("error: This is a fault in bosflow (InvalidOperationException): odd. For details, look into /run/log.txt.\n", error);
    }

    [Fact]
    public void Tell_UnexpectedWithVerbose_ShowsWhereItArose()
    {
        (_, string error) = Tell(new InvalidOperationException("odd"), "--verbose");

        Assert.StartsWith("System.InvalidOperationException: odd", error, StringComparison.Ordinal);
        Assert.EndsWith("error: This is a fault in bosflow (InvalidOperationException): odd.\n", error, StringComparison.Ordinal);
    }

    private static (int Code, string Error) Tell(Exception exception, params string[] options)
    {
        using var error = new StringWriter();
        int code = ErrorReport.Tell(Talking.To(TextWriter.Null, error, options), exception);
        return (code, error.ToString().ReplaceLineEndings("\n"));
    }
}
