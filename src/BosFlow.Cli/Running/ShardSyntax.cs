using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using BosFlow.Pipeline;

namespace BosFlow.Cli.Running;

/// <summary>How a shard is written on the command line: 3/16.</summary>
internal static class ShardSyntax
{
    /// <summary>The most shards of a run; more would be a slip of the finger.</summary>
    public const int MostShards = 100_000;

    /// <summary>What to write, for messages.</summary>
    public const string InWords = "two whole numbers K/N with K from 1 to N, such as 3/16 for the third of sixteen parts";

    /// <summary>Reads a shard.</summary>
    /// <param name="text">As typed; null = not given.</param>
    /// <param name="shard">The shard.</param>
    /// <returns>Whether the text is one.</returns>
    public static bool TryRead(string? text, [NotNullWhen(true)] out Shard? shard)
    {
        shard = null;
        if (text?.Split('/') is not [string first, string second] || !Number(first, out int number) || !Number(second, out int count) || number < 1 || number > count || count > MostShards)
            return false;
        shard = new Shard(number, count);
        return true;
    }

    private static bool Number(string text, out int number) => int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out number);
}
