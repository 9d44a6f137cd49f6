namespace BosFlow.Cli.CommandLine;

/// <summary>Finds the known word that a mistyped one was probably meant to be.</summary>
internal static class NearestWord
{
    /// <summary>The nearest known word, or null where none is near.</summary>
    /// <param name="typed">What was typed.</param>
    /// <param name="known">The words that exist.</param>
    public static string? Find(string typed, IEnumerable<string> known)
    {
        ArgumentNullException.ThrowIfNull(typed);
        ArgumentNullException.ThrowIfNull(known);
        string? best = null;
        int bestDistance = int.MaxValue;
        foreach (string word in known)
        {
            int distance = Distance(typed.ToLowerInvariant(), word.ToLowerInvariant());
            // A third of the letters may be wrong: more, and the suggestion is a guess that misleads.
            int limit = Math.Max(1, Math.Max(typed.Length, word.Length) / 3);
            if (distance <= limit && distance < bestDistance)
                (best, bestDistance) = (word, distance);
        }

        return best;
    }

    /// <summary>Number of letters inserted, deleted, changed or swapped with their neighbour between two words.</summary>
    /// <param name="a">One word.</param>
    /// <param name="b">The other word.</param>
    /// <remarks>Optimal string alignment distance. Source: Damerau 1964, doi:10.1145/363958.363994 (from memory).</remarks>
    internal static int Distance(string a, string b)
    {
        int[,] cost = new int[a.Length + 1, b.Length + 1];
        for (int i = 0; i <= a.Length; i++)
            cost[i, 0] = i;
        for (int j = 0; j <= b.Length; j++)
            cost[0, j] = j;
        for (int i = 1; i <= a.Length; i++)
        {
            for (int j = 1; j <= b.Length; j++)
            {
                int change = cost[i - 1, j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
                int least = Math.Min(change, Math.Min(cost[i - 1, j], cost[i, j - 1]) + 1);
                if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                    least = Math.Min(least, cost[i - 2, j - 2] + 1);
                cost[i, j] = least;
            }
        }

        return cost[a.Length, b.Length];
    }
}
