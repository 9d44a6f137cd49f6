namespace BosFlow.Speckle.Boards;

/// <summary>Makes the background that a person prints: random dots, fiducials, rulers, all at exact places.</summary>
public static class BoardMaker
{
    /// <summary>Centres of dots and fiducials are whole multiples of 0.1 um: what a description states is exactly what was made.</summary>
    public const double StepsPerMetre = 1e7;

    /// <summary>Makes a board.</summary>
    /// <param name="settings">What it shall be.</param>
    /// <param name="ct">Stops the work.</param>
    /// <returns>The board; the same, dot for dot, for the same settings. Dots come size by size, largest first, each in the order thrown.</returns>
    /// <exception cref="ConfigurationException">The settings cannot be met; one sentence a problem.</exception>
    public static Board Make(BoardSettings settings, CancellationToken ct)
    {
        ArgumentNullException.ThrowIfNull(settings);
        IReadOnlyList<string> problems = settings.Problems();
        if (problems.Count > 0)
            throw new ConfigurationException(problems);

        BoardLayout layout = BoardLayout.Of(settings);
        int[] counts = [.. DotCounts.Of(settings, layout.FreeArea).Select(count => (int)count)];
        var thrower = new DotThrower(settings, layout);
        var tones = new SeededRandom(SeededRandom.PartSeed(settings.Seed, 1, 0));
        var dots = new List<PrintedDot>(counts.Sum());
        double covered = 0;
        for (int size = 0; size < counts.Length; size++)
        {
            thrower.Throw(size, counts[size], dots, ct);
            SetTones(System.Runtime.InteropServices.CollectionsMarshal.AsSpan(dots)[^counts[size]..], settings.Tones, tones);
            covered += counts[size] * DotCounts.AreaOf(settings.Sizes[size]);
        }

        return new Board
        {
            Settings = settings,
            Pattern = layout.Pattern,
            Legend = layout.Legend,
            Fiducials = layout.Fiducials,
            FiducialQuietZone = layout.QuietZone,
            Rulers = layout.Rulers,
            Dots = dots,
            CoverageReached = covered / layout.FreeArea,
        };
    }

    // Exactly half of each size is light on a two-tone board: each dot is drawn with the chance that is left.
    private static void SetTones(Span<PrintedDot> dots, BoardTones tones, SeededRandom random)
    {
        int lightLeft = tones switch { BoardTones.Dark => 0, BoardTones.Inverted => dots.Length, _ => dots.Length / 2 };
        for (int i = 0; i < dots.Length; i++)
        {
            bool isLight = random.NextUniform() * (dots.Length - i) < lightLeft;
            if (isLight)
                lightLeft--;
            dots[i] = dots[i] with { IsLight = isLight };
        }
    }
}
