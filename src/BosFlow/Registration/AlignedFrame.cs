using BosFlow.Footage;

namespace BosFlow.Registration;

/// <summary>A flow-off frame brought onto the pixel grid of the first one.</summary>
/// <param name="Recorded">The frame as it was recorded, in the grey levels of the first.</param>
/// <param name="Motion">Where every point of the first frame is found in it.</param>
/// <param name="KnownRows">For every row of the first frame, whether the motion is known there.</param>
/// <param name="Pixels">Its grey levels on the first frame's grid; NaN where it does not reach or its rows cannot be placed. Given up to whoever combines it.</param>
internal sealed record AlignedFrame(GrayImage Recorded, IPictureMotion Motion, bool[] KnownRows, float[] Pixels)
{
    /// <summary>A frame that lies as the first one does.</summary>
    public static AlignedFrame AsItIs(GrayImage frame)
    {
        bool[] known = new bool[frame.Height];
        Array.Fill(known, true);
        return new AlignedFrame(frame, PlanarMotion.Shift(0, 0), known, frame.Pixels.ToArray());
    }
}
