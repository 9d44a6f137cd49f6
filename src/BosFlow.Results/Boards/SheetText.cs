namespace BosFlow.Results.Boards;

/// <summary>One line of text on a sheet.</summary>
/// <param name="Words">The text.</param>
/// <param name="At">Where its base line begins, ends or has its middle, by <see cref="Align"/>.</param>
/// <param name="Size">Size of the letters (em), m.</param>
internal readonly record struct SheetText(string Words, SheetPoint At, double Size)
{
    public TextAlign Align { get; init; }

    /// <summary>Whether it runs upward instead of to the right.</summary>
    public bool IsUpright { get; init; }

    /// <summary>From 0 (black) to 255 (white).</summary>
    public byte Grey { get; init; }
}
