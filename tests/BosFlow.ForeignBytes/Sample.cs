namespace BosFlow.ForeignBytes;

/// <summary>A good input, the place its mutants are written to, and how they are read.</summary>
/// <param name="Path">Absolute path; holds the good bytes at first.</param>
/// <param name="Read">Reads what lies there; throws what the program would.</param>
/// <param name="Sign">Puts checksums right again after a mutation, so that what lies behind them is reached; null where there are none.</param>
public sealed record Sample(string Path, Action Read, Action<byte[], byte[]>? Sign = null)
{
    /// <summary>The good bytes.</summary>
    public byte[] Good { get; } = File.ReadAllBytes(Path);
}
