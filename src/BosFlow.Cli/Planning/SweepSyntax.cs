using System.Globalization;
using BosFlow.Cli.CaseFile;
using BosFlow.Cli.CommandLine;
using BosFlow.Planning;
using BosFlow.Results.Plans;

namespace BosFlow.Cli.Planning;

/// <summary>Reads what --sweep is given: name=from:to, name=from:to:steps or name=a,b,c.</summary>
internal static class SweepSyntax
{
    /// <summary>How it is written, for help and messages.</summary>
    public const string InWords = "f_number=2.8:22, f_number=2.8:22:8 (with the number of steps) or f_number=2.8,4,5.6";

    private const int StandardSteps = 12;
    private const int MostSteps = 60;
    private const double SmallestSplit = 0.01;
    private const double LargestSplit = 0.99;

    /// <summary>Reads one or two sweeps.</summary>
    /// <param name="typed">What was typed, one text a sweep.</param>
    /// <returns>The quantities with their values.</returns>
    /// <exception cref="ConfigurationException">Something cannot be read; one sentence for each problem.</exception>
    public static IReadOnlyList<SweepAxis> Read(IReadOnlyList<string> typed)
    {
        ArgumentNullException.ThrowIfNull(typed);
        List<string> problems = [];
        List<SweepAxis> axes = [];
        foreach (string text in typed)
        {
            if (One(text, out string? problem) is { } axis)
                axes.Add(axis);
            else
                problems.Add($"--sweep {text} {problem}");
        }

        if (typed.Count > 2)
            problems.Add($"--sweep is given {typed.Count} times; give it at most twice.");
        else if (axes.Count == 2 && axes[0].Quantity == axes[1].Quantity)
            problems.Add($"--sweep varies {axes[0].Name} twice; name two different quantities.");
        return problems.Count == 0 ? axes : throw new ConfigurationException(problems);
    }

    private static SweepAxis? One(string text, out string? problem)
    {
        string[] parts = text.Split('=', 2, StringSplitOptions.TrimEntries);
        if (Quantity(parts[0]) is not { } quantity)
        {
            problem = UnknownName(parts[0]);
            return null;
        }

        if (parts.Length < 2 || parts[1].Length == 0)
        {
            problem = $"has no values; write it like {InWords}.";
            return null;
        }

        List<double> values = parts[1].Contains(':', StringComparison.Ordinal) ? Range(quantity, parts[1], out problem) : List(quantity, parts[1], out problem);
        return problem is null
            ? new SweepAxis(quantity.Quantity, quantity.Name, quantity.Label, quantity.Unit, quantity.UnitsPerSi, [.. values.Select(value => value / quantity.UnitsPerSi)])
            : null;
    }

    private static SweptQuantity? Quantity(string name) =>
        SweptQuantity.All.FirstOrDefault(quantity => quantity.Name == name.TrimStart('-').Replace('-', '_'));

    private static string UnknownName(string name)
    {
        string known = string.Join(", ", SweptQuantity.All.Select(quantity => quantity.Name));
        string plain = name.Replace('-', '_');
        string? near = SweptQuantity.All.FirstOrDefault(quantity => UnitSuffix.StemOf(quantity.Name) == UnitSuffix.StemOf(plain))?.Name
            ?? NearestWord.Find(plain, SweptQuantity.All.Select(quantity => quantity.Name));
        return near is null ? $"names no quantity that can be varied; these can: {known}." : $"names no quantity that can be varied; did you mean {near}?";
    }

    private static List<double> Range(SweptQuantity quantity, string text, out string? problem)
    {
        string[] parts = text.Split(':', StringSplitOptions.TrimEntries);
        int steps = StandardSteps;
        if (parts.Length > 3)
        {
            problem = $"has too many colons; write it like {InWords}.";
            return [];
        }

        if (parts.Length == 3 && !(int.TryParse(parts[2], NumberStyles.None, CultureInfo.InvariantCulture, out steps) && steps is >= 2 and <= MostSteps))
        {
            problem = $"has {(parts[2].Length == 0 ? "no number" : parts[2])} as its number of steps; give a whole number from 2 to {MostSteps}.";
            return [];
        }

        double from = Number(quantity, parts[0], out problem);
        double to = problem is null ? Number(quantity, parts[1], out problem) : 0;
        if (problem is not null)
            return [];
        if (from >= to)
        {
            problem = from > to ? $"runs backwards; write {quantity.Name}={parts[1]}:{parts[0]}." : $"begins and ends at the same value; write it like {InWords}.";
            return [];
        }

        double[] values = [.. Enumerable.Range(0, steps).Select(i => Step(quantity, from, to, i / (steps - 1.0)))];
        return [.. quantity.Quantity == PlanQuantity.Window ? values.Select(Even).Distinct() : values];
    }

    private static double Step(SweptQuantity quantity, double from, double to, double part)
    {
        // The ends come out as typed, without the last bit of a power.
        if (part is 0 or 1)
            return part == 0 ? from : to;
        return quantity.HasEqualRatios ? from * Math.Pow(to / from, part) : from + (part * (to - from));
    }

    private static double Even(double value) => 2 * Math.Round(value / 2);

    private static List<double> List(SweptQuantity quantity, string text, out string? problem)
    {
        List<double> values = [];
        foreach (string part in text.Split(',', StringSplitOptions.TrimEntries))
        {
            double value = Number(quantity, part, out problem);
            if (problem is null && values.Contains(value))
                problem = $"has {part} twice; give each value once.";
            if (problem is not null)
                return [];
            values.Add(value);
        }

        problem = values.Count switch
        {
            < 2 => $"has a single value; write at least two, like {InWords}.",
            > MostSteps => $"has {values.Count} values; give at most {MostSteps}.",
            _ => null,
        };
        values.Sort();
        return values;
    }

    private static double Number(SweptQuantity quantity, string text, out string? problem)
    {
        if (quantity.Key is { } key)
        {
            object? value = OptionText.Read(key, text, out string? wrong);
            problem = wrong is null ? null : $"has a value that cannot be: {text} {wrong}";
            return value switch { double real => real, int whole => whole, _ => double.NaN };
        }

        bool isNumber = double.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent, CultureInfo.InvariantCulture, out double split);
        problem = isNumber && split is >= SmallestSplit and <= LargestSplit
            ? null
            : string.Create(CultureInfo.InvariantCulture, $"has a value that cannot be: {(text.Length == 0 ? "nothing" : text)}; a split is the part of the distance from lens to board that lies behind the flow, so give numbers from {SmallestSplit} to {LargestSplit}.");
        return split;
    }
}
