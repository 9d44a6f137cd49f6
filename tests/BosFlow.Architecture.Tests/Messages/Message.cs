namespace BosFlow.Architecture.Tests.Messages;

/// <summary>One sentence that the program can say.</summary>
/// <param name="Group">Heading it belongs under.</param>
/// <param name="Kind">Whether the program ends or goes on.</param>
/// <param name="Text">The sentence, with words in angle brackets where it names something.</param>
internal sealed record Message(string Group, MessageKind Kind, string Text)
{
    /// <summary>Whether the sentence ends with another one of this list, which has the cure.</summary>
    public bool EndsWithAnother => Text.EndsWith('>') || Text.EndsWith(">.", StringComparison.Ordinal);
}
