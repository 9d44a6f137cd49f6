namespace BosFlow.Planning;

/// <summary>Collects what is out of range, one sentence each.</summary>
internal sealed class RangeCheck
{
    private readonly List<string> problems = [];

    /// <summary>What was found.</summary>
    public IReadOnlyList<string> Problems => problems;

    /// <summary>Adds a sentence.</summary>
    public void Add(string sentence) => problems.Add(sentence);

    /// <summary>A length above 0 and at most 1 km; null passes.</summary>
    public void Length(string what, double? metres) => Positive(what, metres, 1e3, 1e3, "mm");

    /// <summary>A length of 0 to 1 km.</summary>
    public void LengthOrNone(string what, double metres)
    {
        if (!(metres is >= 0 and <= 1e3))
            Add(FormattableString.Invariant($"The {what} is {metres * 1e3:G6} mm; it must be 0 to 1000000 mm."));
    }

    /// <summary>An absolute temperature up to 6000 K.</summary>
    public void Kelvin(string what, double kelvin) => Positive(what, kelvin, 6000, 1, "K");

    /// <summary>A value above 0; null passes.</summary>
    public void Positive(string what, double? value, double limit, double factor, string unit)
    {
        if (value is double given && !(given > 0 && given <= limit))
            Add(FormattableString.Invariant($"The {what} is {given * factor:G6} {unit}; it must be greater than 0 and at most {limit * factor:G6} {unit}.").Replace(" ;", ";", StringComparison.Ordinal).Replace(" .", ".", StringComparison.Ordinal));
    }

    /// <summary>A value within a range, both ends included; null passes.</summary>
    public void Within(string what, double? value, double least, double most, double factor, string unit)
    {
        if (value is double given && !(given >= least && given <= most))
            Add(FormattableString.Invariant($"The {what} is {given * factor:G6} {unit}; it must be {least * factor:G6} to {most * factor:G6} {unit}.").Replace(" ;", ";", StringComparison.Ordinal).Replace(" .", ".", StringComparison.Ordinal));
    }
}
