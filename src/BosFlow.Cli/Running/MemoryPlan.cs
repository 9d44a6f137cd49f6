using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Pipeline;
using BosFlow.Registration;

namespace BosFlow.Cli.Running;

/// <summary>Chooses how many frames are measured side by side, so that a run stays within its memory.</summary>
internal static class MemoryPlan
{
    /// <summary>Memory that a run is expected to take at its peak, bytes.</summary>
    /// <param name="experiment">The case.</param>
    /// <param name="info">The footage.</param>
    /// <param name="reference">The reference.</param>
    /// <param name="threads">Frames measured side by side.</param>
    public static long Expected(ExperimentCase experiment, FootageInfo info, ReferenceSource reference, int threads) => MemoryEstimate.PeakBytes(
        info.Width, info.Height, DisplacementEngine.GridOf(info.Width, info.Height, experiment.Displacement), threads, reference.Later.Select(later => later.FrameCount).Append(reference.FrameCount).Max(), experiment.Reference.Combine, reference.Later.Count > 0);

    /// <summary>The settings with as many threads as fit.</summary>
    /// <param name="settings">What was asked for.</param>
    /// <param name="machineBytes">Memory that this process may use of the machine or of its container, bytes.</param>
    /// <param name="expected">Expected peak by number of threads, bytes.</param>
    /// <param name="remark">Told when fewer threads are used than were asked for.</param>
    /// <exception cref="InputDataException">Not even one frame at a time fits into --max-memory.</exception>
    public static RunSettings Fit(RunSettings settings, long machineBytes, Func<int, long> expected, Action<string> remark)
    {
        long limit = settings.MaxMemoryBytes ?? machineBytes;
        int threads = settings.Threads;
        while (threads > 1 && expected(threads) > limit)
            threads--;
        if (expected(threads) > limit && settings.MaxMemoryBytes is not null)
        {
            throw new InputDataException(
                $"--max-memory {ByteText.Memory(limit)} is too little: one frame at a time needs about {ByteText.Memory(expected(1))}. Allow that much, or give footage of fewer pixels.");
        }

        if (expected(threads) > limit)
            remark($"This machine lets the program use {ByteText.Memory(limit)} of memory, and one frame at a time needs about {ByteText.Memory(expected(1))}: the run may end early; use a machine with more memory, or footage of fewer pixels.");
        else if (threads < settings.Threads)
            remark(FormattableString.Invariant($"{threads} instead of {settings.Threads} frames are measured side by side, to stay within {ByteText.Memory(limit)} of memory."));
        return settings with { Threads = threads };
    }
}
