using BosFlow.Footage;

namespace BosFlow.Registration;

/// <summary>Whether a frame may become part of the reference.</summary>
internal static class ReferenceFrameCheck
{
    /// <summary>Why a frame is left out; null where it is not.</summary>
    /// <exception cref="InputDataException">The frame has another size: a mistake in the case, not a bad frame.</exception>
    public static string? Failure(Frame frame, PixelMask measurable)
    {
        if (frame.Image is null)
            return frame.Failure ?? "It holds no picture; leave it out.";
        if (frame.Image.Width != measurable.Width || frame.Image.Height != measurable.Height)
        {
            throw new InputDataException(FormattableString.Invariant(
                $"{frame.Source}: the reference is {frame.Image.Width} x {frame.Image.Height} px and the footage {measurable.Width} x {measurable.Height} px; both must come from the same camera at the same size."));
        }

        return FrameQuality.Assess(frame.Image, measurable).Failure;
    }
}
