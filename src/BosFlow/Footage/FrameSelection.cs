using System.Globalization;

namespace BosFlow.Footage;

/// <summary>Turns what the case file says about the choice of frames into frame numbers.</summary>
public static class FrameSelection
{
    /// <summary>The frames that the settings ask for.</summary>
    /// <param name="settings">Holds <c>use</c> or <c>use_seconds</c>, or neither for all frames.</param>
    /// <param name="info">Number of frames and their time stamps.</param>
    /// <returns>Frame numbers, ascending, at least one.</returns>
    /// <exception cref="InputDataException">The choice cannot be read, needs time stamps that the footage lacks, or leaves no frame.</exception>
    public static IReadOnlyList<int> Resolve(FootageSettings settings, FootageInfo info)
    {
        ArgumentNullException.ThrowIfNull(settings);
        ArgumentNullException.ThrowIfNull(info);
        if (settings.Use is not null && settings.UseSeconds is not null)
            throw new InputDataException("footage.use and footage.use_seconds are both given, but only one of them can choose the frames: remove one.");
        if (settings.UseSeconds is (double start, double stop))
            return BySeconds(start, stop, info.TimesSeconds);
        return settings.Use is null ? [.. Enumerable.Range(0, info.FrameCount)] : Parse(settings.Use, info.FrameCount, "footage.use");
    }

    /// <summary>Reads a range <c>start:stop:step</c>: half-open, each part optional, negative start and stop count from the end.</summary>
    /// <param name="text">The range as typed, such as "0:90", "::2", "-30:"; a single number chooses that one frame.</param>
    /// <param name="frameCount">Number of frames of the footage, at least 1.</param>
    /// <param name="key">Key or option the text came from, for messages.</param>
    /// <returns>Frame numbers, ascending, at least one.</returns>
    /// <exception cref="InputDataException">The text is no range, its step is below 1, it reaches outside the footage, or it leaves no frame.</exception>
    /// <remarks>
    /// The ranges are those of Python's slices with one difference: a start or stop outside the footage is refused
    /// instead of being cut to it, since it mostly means that the frames are not those the user has in mind.
    /// </remarks>
    public static IReadOnlyList<int> Parse(string text, int frameCount, string key)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentOutOfRangeException.ThrowIfLessThan(frameCount, 1);
        string[] parts = text.Split(':');
        if (parts.Length > 3)
            throw NotARange(text, key);
        int? first = Number(parts[0], text, key);
        if (parts.Length == 1)
        {
            int only = FromEnd(first ?? throw NotARange(text, key), frameCount);
            return only >= 0 && only < frameCount ? [only] : throw Outside(text, key, frameCount);
        }

        int start = FromEnd(first ?? 0, frameCount);
        int stop = Number(parts[1], text, key) is int given ? FromEnd(given, frameCount) : frameCount;
        int step = parts.Length == 3 ? Number(parts[2], text, key) ?? 1 : 1;
        if (step < 1)
            throw new InputDataException(Text($"{key} = \"{text}\" has the step {step}; frames are used in their order, so the step must be 1 or more."));
        if (start < 0 || start > frameCount || stop < 0 || stop > frameCount)
            throw Outside(text, key, frameCount);
        if (start >= stop)
            throw new InputDataException(Text($"{key} = \"{text}\" leaves no frame of the {frameCount} (it would start at {start} and stop before {stop}): write a start below the stop."));

        var chosen = new List<int>();
        for (long index = start; index < stop; index += step)
            chosen.Add((int)index);
        return chosen;
    }

    private static List<int> BySeconds(double start, double stop, IReadOnlyList<double> times)
    {
        if (!double.IsFinite(start) || !double.IsFinite(stop) || start > stop)
            throw new InputDataException(Text($"footage.use_seconds = [{start}, {stop}] must be two seconds, the first at most the second."));
        if (times.All(double.IsNaN))
            throw new InputDataException("footage.use_seconds needs time stamps, but this footage carries none: give footage.frame_rate_hz, or choose frames by number with footage.use.");
        List<int> chosen = [.. Enumerable.Range(0, times.Count).Where(index => times[index] >= start && times[index] <= stop)];
        return chosen.Count > 0
            ? chosen
            : throw new InputDataException(Text($"footage.use_seconds = [{start}, {stop}] leaves no frame: the footage runs from 0 s to {times.Where(double.IsFinite).Max():0.###} s; give times within."));
    }

    private static int? Number(string part, string text, string key)
    {
        string trimmed = part.Trim();
        if (trimmed.Length == 0)
            return null;
        return int.TryParse(trimmed, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out int number)
            ? number
            : throw NotARange(text, key);
    }

    private static int FromEnd(int number, int frameCount) => number < 0 ? number + frameCount : number;

    private static InputDataException NotARange(string text, string key) =>
        new($"{key} = \"{text}\" is no range of frames: write start:stop:step in whole numbers, such as \"0:90\", \"::2\" or \"-30:\".");

    private static InputDataException Outside(string text, string key, int frameCount) =>
        new(Text($"{key} = \"{text}\" reaches outside the footage, which has {frameCount} frames (0 to {frameCount - 1}): leave a part empty for the first or the last frame."));

    private static string Text(FormattableString text) => FormattableString.Invariant(text);
}
