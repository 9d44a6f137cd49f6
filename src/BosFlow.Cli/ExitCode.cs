namespace BosFlow.Cli;

/// <summary>Exit codes of every command. They are API.</summary>
public static class ExitCode
{
    /// <summary>Done.</summary>
    public const int Done = 0;

    /// <summary>Failed while working.</summary>
    public const int Failed = 1;

    /// <summary>Wrong use or bad input, found before any work; nothing was written.</summary>
    public const int BadInput = 2;

    /// <summary>Done, but at least one frame could not be measured, or the verdict is negative.</summary>
    public const int DoneWithLosses = 3;

    /// <summary>Interrupted; the same command goes on where it stopped.</summary>
    public const int Interrupted = 130;
}
