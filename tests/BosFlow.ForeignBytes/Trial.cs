using System.Globalization;
using BosFlow.ForeignBytes.Mutation;

namespace BosFlow.ForeignBytes;

/// <summary>Has one mutant read in this process.</summary>
public static class Trial
{
    /// <summary>Most memory that reading a mutant of a sample of some kilobytes may take: managed memory taken, or growth of the process at its peak.</summary>
    public const long MostBytes = 256L << 20;

    /// <summary>Writes the mutant in the sample's place, reads it, judges, and puts the good bytes back.</summary>
    public static Verdict Run(ForeignReader reader, IReadOnlyList<Sample> samples, int number)
    {
        (Sample sample, byte[] bytes) = Mutants.Make(reader, samples, number);
        File.WriteAllBytes(sample.Path, bytes);
        // Begins the counting of the peak anew. Source: proc(5), clear_refs.
        File.WriteAllText("/proc/self/clear_refs", "5");
        long before = StatusBytes("VmRSS:");
        long managed = GC.GetTotalAllocatedBytes();
        (Outcome outcome, string words) = Read(sample);
        long taken = Math.Max(GC.GetTotalAllocatedBytes() - managed, StatusBytes("VmHWM:") - before);
        File.WriteAllBytes(sample.Path, sample.Good);
        return taken > MostBytes
            ? new Verdict(number, Outcome.TookTooMuch, FormattableString.Invariant($"{taken >> 20} MB; {outcome}: {words}"))
            : new Verdict(number, outcome, words);
    }

    private static (Outcome Outcome, string Words) Read(Sample sample)
    {
        try
        {
            sample.Read();
            return (Outcome.Accepted, "");
        }
        catch (ConfigurationException refusal)
        {
            return Refusal(sample, refusal.Problems);
        }
        catch (InputDataException refusal)
        {
            return Refusal(sample, [refusal.Message]);
        }
#pragma warning disable CA1031 // Every other exception is what is looked for here.
        catch (Exception fault)
#pragma warning restore CA1031 // Back to the rule.
        {
            return (Outcome.Crashed, fault.ToString());
        }
    }

    private static (Outcome Outcome, string Words) Refusal(Sample sample, IReadOnlyList<string> sentences)
    {
        string name = Path.GetFileName(sample.Path);
        // Of two files that belong together, such as a board's description and table, the other one may be named.
        string folder = Path.GetDirectoryName(sample.Path) + "/";
        bool isClear = sentences.Count > 0 && sentences.All(sentence =>
            (sentence.Contains(name, StringComparison.Ordinal) || sentence.Contains(folder, StringComparison.Ordinal)) && !sentence.Contains('\n', StringComparison.Ordinal));
        return (isClear ? Outcome.Refused : Outcome.Unclear, string.Join(" | ", sentences));
    }

    private static long StatusBytes(string key) => File.ReadLines("/proc/self/status")
        .Where(line => line.StartsWith(key, StringComparison.Ordinal))
        .Select(line => long.Parse(line[key.Length..].Replace("kB", "", StringComparison.Ordinal).Trim(), CultureInfo.InvariantCulture) * 1024)
        .First();
}
