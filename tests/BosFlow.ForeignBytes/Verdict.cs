namespace BosFlow.ForeignBytes;

/// <summary>What became of one mutant.</summary>
/// <param name="Mutant">Its number; with the reader's name it makes the mutant again.</param>
/// <param name="Outcome">How the reader took it.</param>
/// <param name="Words">What the reader said, on one line.</param>
public sealed record Verdict(int Mutant, Outcome Outcome, string Words)
{
    /// <summary>Whether the reader did what it must.</summary>
    public bool IsAllowed => Outcome is Outcome.Accepted or Outcome.Refused;

    /// <summary>One line for a pipe; <see cref="Parse"/> undoes it.</summary>
    public string ToLine() => FormattableString.Invariant($"{Mutant}\t{Outcome}\t{Words.ReplaceLineEndings(" ").Replace('\t', ' ')}");

    /// <summary>The verdict of a line.</summary>
    public static Verdict Parse(string line)
    {
        string[] parts = line.Split('\t', 3);
        return new Verdict(int.Parse(parts[0], System.Globalization.CultureInfo.InvariantCulture), Enum.Parse<Outcome>(parts[1]), parts[2]);
    }
}
