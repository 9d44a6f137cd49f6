using BosFlow.Cli.CaseFile.Keys;

namespace BosFlow.Cli.CaseFile;

/// <summary>Sentences for keys that exclude or need each other.</summary>
internal static class KeyRelations
{
    /// <summary>Two keys that say the same thing twice.</summary>
    /// <param name="values">The keys of the file.</param>
    /// <param name="problems">Receives the sentence, at the line of the first key.</param>
    /// <param name="one">One key.</param>
    /// <param name="other">The other key, of the same section.</param>
    public static void Exclude(CaseValues values, CaseProblems problems, CaseKey one, CaseKey other)
    {
        if (values.Has(one) && values.Has(other))
            problems.Add(values.LineOf(one), $"{one.FullName} and {other.Name} ({values.LineOf(other)}) exclude each other; keep one of them.");
    }

    /// <summary>A standard uncertainty of a value: it needs the value, and is much smaller.</summary>
    /// <param name="values">The keys of the file.</param>
    /// <param name="problems">Receives the sentence.</param>
    /// <param name="sigma">The uncertainty.</param>
    /// <param name="value">The value, in the same unit unless the uncertainty is in percent; of the same section.</param>
    public static void Uncertainty(CaseValues values, CaseProblems problems, TypedCaseKey<double> sigma, TypedCaseKey<double> value)
    {
        if (!values.Has(sigma))
            return;
        if (!values.Has(value))
            problems.Add(values.LineOf(sigma), $"{sigma.FullName} is the uncertainty of {value.Name}, which is not given; give that too, or remove the uncertainty.");
        else if (sigma.Unit == value.Unit && values.Number(sigma) > values.Number(value) / 2)
            problems.Add(values.LineOf(sigma), FormattableString.Invariant($"{sigma.FullName} = {values.Number(sigma)} is more than half of {value.Name} = {values.Number(value)}; a value so uncertain gives no result, so check both."));
    }
}
