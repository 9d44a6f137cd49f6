using System.Globalization;

namespace BosFlow.Cli.Running;

/// <summary>A length of time as people say it.</summary>
internal static class DurationText
{
    /// <summary>The two largest units: 9 s, 3 min 20 s, 7 h 5 min.</summary>
    /// <param name="time">The time, not negative.</param>
    public static string Of(TimeSpan time)
    {
        var seconds = TimeSpan.FromSeconds(Math.Ceiling(time.TotalSeconds));
        return seconds.TotalHours >= 1
            ? string.Create(CultureInfo.InvariantCulture, $"{(int)seconds.TotalHours} h {seconds.Minutes} min")
            : seconds.TotalMinutes >= 1
                ? string.Create(CultureInfo.InvariantCulture, $"{seconds.Minutes} min {seconds.Seconds} s")
                : string.Create(CultureInfo.InvariantCulture, $"{seconds.Seconds} s");
    }
}
