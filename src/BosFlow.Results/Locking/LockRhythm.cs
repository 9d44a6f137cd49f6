namespace BosFlow.Results.Locking;

/// <summary>How often a holder shows that it lives, and how long a silent one is believed in.</summary>
/// <param name="Beat">Time between two signs of life.</param>
/// <param name="Silence">A lock of another machine that shows no sign of life for this long is left over.</param>
/// <param name="Look">Time between two looks at such a lock.</param>
public sealed record LockRhythm(TimeSpan Beat, TimeSpan Silence, TimeSpan Look)
{
    /// <summary>Twelve signs of life must fail to arrive: a network disk may show news as late as a minute.</summary>
    public static LockRhythm Standard { get; } = new(TimeSpan.FromSeconds(10), TimeSpan.FromMinutes(2), TimeSpan.FromSeconds(1));
}
