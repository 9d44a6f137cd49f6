namespace BosFlow.Media;

/// <summary>
/// How the stored pixels are turned for display; the numbers are those of the TIFF and Exif tag 274.
/// Source: TIFF Revision 6.0, Adobe, 1992, section 8, "Orientation"; Exif 2.32, CIPA DC-008, 2019, section 4.6.4.
/// </summary>
internal enum Orientation
{
    Upright = 1,
    Mirrored = 2,
    HalfTurn = 3,
    Flipped = 4,
    Transposed = 5,
    QuarterTurnClockwise = 6,
    Transversed = 7,
    QuarterTurnCounterClockwise = 8,
}
