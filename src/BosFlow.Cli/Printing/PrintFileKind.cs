namespace BosFlow.Cli.Printing;

/// <summary>Kinds of files that print writes.</summary>
internal enum PrintFileKind
{
    Description,
    Dots,
    Pdf,
    Svg,
    Png,
    Contours,
}
