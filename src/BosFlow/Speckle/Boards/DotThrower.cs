namespace BosFlow.Speckle.Boards;

/// <summary>Throws discs at random and keeps those that touch none before them (random sequential adsorption), the largest size first.</summary>
/// <remarks>
/// Discs are thrown over a domain wider than the pattern and under the fiducials too, and only those in the free area become dots: near an edge the
/// pattern is then the same as anywhere else. Where throwing stopped at the edge instead, discs would crowd along it, having no neighbours beyond.
/// Source of the scheme: B. Widom 1966, "Random sequential addition of hard spheres to a volume", doi 10.1063/1.1726548.
/// </remarks>
internal sealed class DotThrower
{
    // Correlations of discs thrown this way die off within two or three distances.
    private const double MarginReaches = 3;

    // At the densest pattern allowed one throw in some hundreds finds room; this many in vain mean that there is none.
    private const int LargestThrowsInVain = 1_000_000;

    private const int ThrowsBetweenLooks = 1 << 16;

    private readonly BoardSettings settings;
    private readonly FreeArea free;
    private readonly SeededRandom random;
    private readonly double gap;
    private readonly List<DotGrid> grids = [];

    // Domain in whole steps, so that every position is one that a description can state exactly.
    private readonly long firstX;
    private readonly long firstY;
    private readonly long stepsX;
    private readonly long stepsY;
    private readonly BoardRectangle domain;

    public DotThrower(BoardSettings settings, BoardLayout layout)
    {
        this.settings = settings;
        free = new FreeArea(layout);
        random = new SeededRandom(settings.Seed);
        gap = settings.GapMetres;
        double margin = MarginReaches * (settings.Sizes[0].DiameterMetres + gap);
        BoardRectangle pattern = layout.Pattern;
        firstX = (long)Math.Floor((pattern.Left - margin) * BoardMaker.StepsPerMetre);
        firstY = (long)Math.Floor((pattern.Top - margin) * BoardMaker.StepsPerMetre);
        stepsX = (long)Math.Ceiling((pattern.Width + (2 * margin)) * BoardMaker.StepsPerMetre) + 1;
        stepsY = (long)Math.Ceiling((pattern.Height + (2 * margin)) * BoardMaker.StepsPerMetre) + 1;
        domain = new BoardRectangle(
            firstX / BoardMaker.StepsPerMetre, firstY / BoardMaker.StepsPerMetre, stepsX / BoardMaker.StepsPerMetre, stepsY / BoardMaker.StepsPerMetre);
    }

    /// <summary>Adds dots of one size until there are as many as asked; sizes come in their order, largest first.</summary>
    public void Throw(int size, int count, List<(double X, double Y)> kept, CancellationToken ct)
    {
        double diameter = settings.Sizes[size].DiameterMetres;
        var own = new DotGrid(domain, diameter + gap, (int)Math.Min(int.MaxValue / 4, count * domain.Area / Math.Max(free.CentreArea(diameter / 2), 1e-12)));
        grids.Add(own);
        int inVain = 0;
        int thrown = 0;
        int aim = kept.Count + count;
        while (kept.Count < aim)
        {
            if (++thrown % ThrowsBetweenLooks == 0)
                ct.ThrowIfCancellationRequested();
            double x = (firstX + (long)(random.NextUniform() * stepsX)) / BoardMaker.StepsPerMetre;
            double y = (firstY + (long)(random.NextUniform() * stepsY)) / BoardMaker.StepsPerMetre;
            if (IsTaken(x, y, size))
            {
                if (++inVain == LargestThrowsInVain)
                    throw new ConfigurationException([BoardSettingsCheck.NoRoomLeft(settings, diameter)]);
                continue;
            }

            inVain = 0;
            own.Add(x, y);
            if (free.Holds(x, y, diameter / 2))
                kept.Add((x, y));
        }
    }

    private bool IsTaken(double x, double y, int size)
    {
        double diameter = settings.Sizes[size].DiameterMetres;
        // The own size is met most often.
        for (int other = grids.Count - 1; other >= 0; other--)
        {
            if (grids[other].HasWithin(x, y, ((diameter + settings.Sizes[other].DiameterMetres) / 2) + gap))
                return true;
        }

        return false;
    }
}
