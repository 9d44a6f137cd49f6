using BosFlow.Footage;
using BosFlow.Numerics.Interpolation;

namespace BosFlow.Registration;

/// <summary>
/// The one pattern that all frames show, finer than their pixels: shaken frames see the dots at many fractions of a pixel, and together they tell what a single one cannot.
/// </summary>
/// <remarks>The frames themselves are kept, in at most a given amount of memory; those that come after are in the start of the fit, the mean, alone.</remarks>
internal sealed class JointCombination : IFrameCombination
{
    private readonly GrayImage first;
    private readonly MeanCombination mean;
    private readonly int most;
    private readonly ParallelOptions parallel;
    private readonly List<FineObservation> observations = [];

    /// <summary>Starts without a frame.</summary>
    /// <param name="first">The frame whose grid and grey levels are those of the result.</param>
    /// <param name="largestBytes">Memory that the frames may take; three frames are always kept.</param>
    /// <param name="parallel">Threads and cancellation of the fit.</param>
    public JointCombination(GrayImage first, long largestBytes, ParallelOptions parallel)
    {
        this.first = first;
        this.parallel = parallel;
        mean = new MeanCombination(first.Pixels.Length);
        most = (int)Math.Clamp(largestBytes / (sizeof(float) * (long)first.Pixels.Length), 3, int.MaxValue);
    }

    public int FrameCount => Math.Min(most, mean.FrameCount);

    public string? Warning => mean.FrameCount <= most
        ? null
        : FormattableString.Invariant($"The joint reference was fitted to the first {most} of the {mean.FrameCount} reference frames, to keep memory bounded.");

    public FineSpline? Underlying { get; private set; }

    public void Add(AlignedFrame frame)
    {
        if (observations.Count < most)
            observations.Add(Observation(frame));
        mean.Add(frame);
    }

    public float[] Combine()
    {
        float[] start = mean.Combine();
        if (observations.Count < 2)
            return start;
        float[] filled = FilledPicture.Of(new GrayImage(first.Width, first.Height, start, first.WhiteLevel)).Pixels;
        FineSpline fine = FineSpline.Through(filled, first.Width, first.Height);
        FineSplineFit.Improve(fine, observations, PatternCutoff.Strength(filled, first, observations.Count), parallel);
        observations.Clear();
        Underlying = fine;
        float[] picture = fine.AtPixels();
        for (int i = 0; i < picture.Length; i++)
        {
            if (float.IsNaN(start[i]))
                picture[i] = float.NaN;
        }

        return picture;
    }

    // Exposure may differ from frame to frame; without this a brighter frame would look like a pattern of its own.
    private FineObservation Observation(AlignedFrame frame)
    {
        (double gain, double offset) = LevelMatch.Of(frame.Pixels, first.Pixels);
        byte[]? defects = PixelDefects.Find(frame.Recorded);
        float[] pixels = new float[frame.Recorded.Pixels.Length];
        for (int i = 0; i < pixels.Length; i++)
            pixels[i] = defects is null || defects[i] == 0 ? (float)((frame.Recorded.Pixels[i] - offset) / gain) : float.NaN;
        int width = first.Width, height = first.Height;
        for (int y = 0; y < height; y++)
        {
            if (!IsKnown(0, y) || !IsKnown(width - 1, y))
                pixels.AsSpan(y * width, width).Fill(float.NaN);
        }

        return new FineObservation(width, height, pixels, (x, y) => InverseMotion.Of(frame.Motion, x, y));

        bool IsKnown(int x, int y)
        {
            double row = InverseMotion.Of(frame.Motion, x, y).Y;
            return row >= 0 && row <= height - 1 && frame.KnownRows[(int)Math.Round(row)];
        }
    }
}
