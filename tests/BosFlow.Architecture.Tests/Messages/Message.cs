namespace BosFlow.Architecture.Tests.Messages;

/// <summary>One sentence that the program can say.</summary>
/// <param name="Group">Heading it belongs under.</param>
/// <param name="Kind">Whether the program ends or goes on.</param>
/// <param name="Text">The sentence, with words in angle brackets where it names something.</param>
internal sealed record Message(string Group, MessageKind Kind, string Text)
{
    /// <summary>Whether another sentence of this list is around it or at its end, and that one has the cure.</summary>
    public bool IsPart => Text.EndsWith('>') || Text.EndsWith(">.", StringComparison.Ordinal) || (char.IsLower(Text[0]) && !Text.EndsWith('.'));
}
