namespace BosFlow.ForeignBytes.Mutation;

/// <summary>Makes mutants by number: the same reader, samples and number give the same mutant.</summary>
internal static class Mutants
{
    /// <summary>One mutant.</summary>
    /// <param name="reader">Who shall read it.</param>
    /// <param name="samples">Its good inputs.</param>
    /// <param name="number">From 0.</param>
    /// <returns>The sample it was made from, and its bytes.</returns>
    public static (Sample Sample, byte[] Bytes) Make(ForeignReader reader, IReadOnlyList<Sample> samples, int number)
    {
        var random = new Random(SeedOf(reader.Name) + number);
        Sample sample = samples[number % samples.Count];
        byte[] bytes = sample.Good;
        for (int changes = 1 + random.Next(3); changes > 0; changes--)
            bytes = reader.IsText && random.Next(4) > 0 ? TextMutator.Change(bytes, random) : ByteMutator.Change(bytes, random);
        // Every other mutant gets its checksums put right, the others show that checksums are looked at.
        if (sample.Sign is { } sign && random.Next(2) == 0)
            sign(sample.Good, bytes);
        return (sample, bytes);
    }

    // FNV-1a: string.GetHashCode differs from process to process.
    private static int SeedOf(string name) => (int)(name.Aggregate(2166136261u, (hash, letter) => unchecked((hash ^ letter) * 16777619)) >> 2);
}
