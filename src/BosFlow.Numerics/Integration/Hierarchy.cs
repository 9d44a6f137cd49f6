namespace BosFlow.Numerics.Integration;

/// <summary>The levels of the preconditioner, from the grid down to nodes without links; made once, read by any number of solves at a time.</summary>
internal sealed class Hierarchy
{
    private Hierarchy(IReadOnlyList<ILevel> levels)
    {
        Levels = levels;
    }

    public IReadOnlyList<ILevel> Levels { get; }

    public static Hierarchy Build(GridLevel finest, Bands bands)
    {
        List<ILevel> levels = [finest];
        Aggregates aggregates = Aggregation.Blocks(finest);
        while (aggregates.Count > 0)
        {
            bands.ThrowIfCancelled();
            ILevel fine = levels[^1];
            fine.Next = aggregates;
            ILevel coarse = fine is GridLevel grid && aggregates.Columns > 0 ? GridLevel.Contract(grid, aggregates) : aggregates.Contract(fine);
            levels.Add(coarse);
            aggregates = coarse is GridLevel coarseGrid ? Aggregation.Blocks(coarseGrid) : PairsOfPairs(coarse);
        }

        return new Hierarchy(levels);
    }

    private static Aggregates PairsOfPairs(ILevel level)
    {
        Aggregates pairs = Aggregation.Pairs(level);
        return pairs.Count > 0 ? Aggregates.Compose(pairs, Aggregation.Pairs(pairs.Contract(level))) : pairs;
    }
}
