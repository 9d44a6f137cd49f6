namespace BosFlow.Architecture.Tests.Messages;

/// <summary>What the program does after it has said something.</summary>
internal enum MessageKind
{
    /// <summary>It ends, or a frame is left out.</summary>
    Problem,

    /// <summary>It goes on.</summary>
    Warning,
}
