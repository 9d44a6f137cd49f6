namespace BosFlow.Numerics.Integration;

/// <summary>The levels of the preconditioner, from the grid down to nodes without links; made once, read by any number of solves at a time.</summary>
internal sealed class Hierarchy
{
    private Hierarchy(IReadOnlyList<ILevel> levels)
    {
        Levels = levels;
    }

    public IReadOnlyList<ILevel> Levels { get; }

    public static Hierarchy Build(GridLevel grid, Bands bands)
    {
        List<ILevel> levels = [grid];
        Aggregates aggregates = Aggregation.Blocks(grid);
        while (aggregates.Count > 0)
        {
            bands.ThrowIfCancelled();
            ILevel fine = levels[^1];
            fine.Next = aggregates;
            GraphLevel coarse = aggregates.Contract(fine);
            levels.Add(coarse);
            Aggregates pairs = Aggregation.Pairs(coarse);
            aggregates = pairs.Count > 0 ? Aggregates.Compose(pairs, Aggregation.Pairs(pairs.Contract(coarse))) : pairs;
        }

        return new Hierarchy(levels);
    }
}
