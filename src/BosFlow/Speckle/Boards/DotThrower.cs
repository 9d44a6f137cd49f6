namespace BosFlow.Speckle.Boards;

/// <summary>Throws discs at random and keeps those that touch none before them (random sequential adsorption), the largest size first.</summary>
/// <remarks>
/// Discs are thrown over a domain wider than the pattern and under the fiducials too, and only those in the free area become dots: near an edge the
/// pattern is then the same as anywhere else. Where throwing stopped at the edge instead, discs would crowd along it, having no neighbours beyond.
/// Source of the scheme: B. Widom 1966, "Random sequential addition of hard spheres to a volume", J. Chem. Phys. 44:3888 (from memory).
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
    private readonly List<DotGrid> grids = [];

    // Domain in whole steps, so that every position is one that a description can state exactly.
    private readonly long firstX;
    private readonly long firstY;
    private readonly int stepsX;
    private readonly int stepsY;

    public DotThrower(BoardSettings settings, BoardLayout layout)
    {
        this.settings = settings;
        free = new FreeArea(layout);
        random = new SeededRandom(settings.Seed);
        double margin = MarginReaches * (settings.Sizes[0].DiameterMetres + settings.GapMetres);
        BoardRectangle pattern = layout.Pattern;
        firstX = (long)Math.Floor((pattern.Left - margin) * BoardMaker.StepsPerMetre);
        firstY = (long)Math.Floor((pattern.Top - margin) * BoardMaker.StepsPerMetre);
        stepsX = checked((int)Math.Ceiling((pattern.Width + (2 * margin)) * BoardMaker.StepsPerMetre) + 1);
        stepsY = checked((int)Math.Ceiling((pattern.Height + (2 * margin)) * BoardMaker.StepsPerMetre) + 1);
    }

    /// <summary>Adds dots of one size until there are as many as asked; sizes come in their order, largest first.</summary>
    public void Throw(int size, int count, List<PrintedDot> dots, CancellationToken ct)
    {
        double diameter = settings.Sizes[size].DiameterMetres;
        double[] distances = [.. settings.Sizes.Take(size + 1).Select(other => StepsApart(diameter, other.DiameterMetres))];
        double domainToFree = stepsX / BoardMaker.StepsPerMetre * (stepsY / BoardMaker.StepsPerMetre) / free.CentreArea(diameter / 2);
        grids.Add(new DotGrid(stepsX, stepsY, distances[size], count * domainToFree));
        int inVain = 0;
        int thrown = 0;
        int aim = dots.Count + count;
        while (dots.Count < aim)
        {
            if (++thrown % ThrowsBetweenLooks == 0)
                ct.ThrowIfCancellationRequested();
            int x = (int)(random.NextUniform() * stepsX);
            int y = (int)(random.NextUniform() * stepsY);
            if (IsTaken(x, y, distances))
            {
                if (++inVain == LargestThrowsInVain)
                    throw new ConfigurationException([BoardSettingsCheck.NoRoomLeft(settings, diameter)]);
                continue;
            }

            inVain = 0;
            grids[size].Add(x, y);
            double onBoardX = (firstX + x) / BoardMaker.StepsPerMetre;
            double onBoardY = (firstY + y) / BoardMaker.StepsPerMetre;
            if (free.Holds(onBoardX, onBoardY, diameter / 2))
                dots.Add(new PrintedDot(onBoardX, onBoardY, size, IsLight: false));
        }
    }

    // The own size is met most often.
    private bool IsTaken(int x, int y, double[] distances)
    {
        for (int other = distances.Length - 1; other >= 0; other--)
        {
            if (grids[other].HasWithin(x, y, distances[other]))
                return true;
        }

        return false;
    }

    private double StepsApart(double diameter, double other) => (((diameter + other) / 2) + settings.GapMetres) * BoardMaker.StepsPerMetre;
}
