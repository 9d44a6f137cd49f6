using BosFlow.TestKit;

namespace BosFlow.Architecture.Tests.Messages;

/// <summary>docs/messages.md holds every message of the program with its cure.</summary>
public sealed class MessageDocumentTests
{
    private static readonly Lazy<IReadOnlyList<Message>> Messages = new(() => MessageCollector.Collect(SourceIndex.OfProgram()));

    [Fact]
    public void Messages_OfTheProgram_SayWhatToDo()
    {
        SourceTree.AssertNone(
            from message in Messages.Value
            where CureFinder.Split(message.Text).Cure.Length == 0 && !message.IsPart
            select $"{message.Group}: \"{message.Text}\" does not say what to do (a clause that begins with an order, such as give, check, remove)");
    }

    [Fact]
    public void MessageDocument_OfTheSources_IsTheCommittedOne()
    {
        string path = Repository.PathOf("docs", "messages.md");
        string page = MessagePage.Of(Messages.Value);
        if (Environment.GetEnvironmentVariable("BOSFLOW_ACCEPT") == "1")
            File.WriteAllText(path, page);

        Assert.True(
            File.Exists(path) && File.ReadAllText(path) == page,
            "docs/messages.md is not what the sources say; make it again with  BOSFLOW_ACCEPT=1 dotnet test -c Release tests/BosFlow.Architecture.Tests --filter MessageDocument");
    }
}
