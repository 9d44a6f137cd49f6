using BosFlow.Speckle.Boards;

namespace BosFlow.Cli.Printing;

/// <summary>One file to write.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Path">Absolute path.</param>
/// <param name="Sheet">The sheet it shows; null where it shows none or all of them, or is an assembly sketch.</param>
/// <param name="IsAssembly">Whether it shows how the sheets go together.</param>
internal sealed record PrintFile(PrintFileKind Kind, string Path, Sheet? Sheet = null, bool IsAssembly = false)
{
    /// <summary>Whether it is something to look at, not the description or its table.</summary>
    public bool IsDrawing => Kind is not (PrintFileKind.Description or PrintFileKind.Dots);
}
