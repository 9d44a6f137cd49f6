namespace BosFlow.Media.Pictures;

/// <summary>What a picture's header says, checked against the limits.</summary>
/// <param name="Format">File format.</param>
/// <param name="StoredWidth">Pixels in a stored row.</param>
/// <param name="StoredHeight">Stored rows.</param>
/// <param name="BitsPerSample">Bits of a stored sample.</param>
/// <param name="IsFloat">Samples are floating-point numbers.</param>
/// <param name="Samples">Samples a pixel, alpha included.</param>
/// <param name="Orientation">How it is turned for display.</param>
internal sealed record PictureHeader(
    PictureFormat Format, int StoredWidth, int StoredHeight, int BitsPerSample, bool IsFloat, int Samples, Orientation Orientation)
{
    /// <summary>Size on display, px.</summary>
    internal (int Width, int Height) Size => OrientationTurn.Size(StoredWidth, StoredHeight, Orientation);

    /// <summary>One phrase for the report, such as "PNG, 16 bit, grey".</summary>
    internal string Description => FormattableString.Invariant(
        $"{Format.ToString().ToUpperInvariant()}, {BitsPerSample} bit{(IsFloat ? " float" : "")}, {(Samples >= 3 ? "colour" : "grey")}");
}
