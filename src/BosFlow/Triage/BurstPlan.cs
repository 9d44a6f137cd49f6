namespace BosFlow.Triage;

/// <summary>Which frames are looked at: short runs of neighbours, spread evenly over the footage.</summary>
internal static class BurstPlan
{
    // Twelve runs find a fault that takes a quarter of the time with 97 % (1 - 0.75^12); sixteen frames tell frequencies a sixteenth of the frame rate apart.
    private const int Bursts = 12;
    private const int Length = 16;

    /// <summary>The runs, ascending; the whole footage in one run where it is no longer than all runs together.</summary>
    /// <param name="frameCount">Frames of the footage, at least 1.</param>
    public static IReadOnlyList<int[]> Choose(int frameCount)
    {
        int bursts = Math.Clamp(frameCount / Length, 1, Bursts);
        int length = bursts < Bursts ? frameCount / bursts : Length;
        // Each run lies in the middle of its share of the footage.
        return [.. Enumerable.Range(0, bursts).Select(burst =>
        {
            int from = (int)((((2L * burst) + 1) * frameCount / (2 * bursts)) - (length / 2));
            return Enumerable.Range(Math.Clamp(from, 0, frameCount - length), length).ToArray();
        })];
    }
}
