namespace BosFlow.Speckle;

/// <summary>Draws random dot patterns.</summary>
public static class SpecklePattern
{
    // A dart misses ever more often as the pattern fills; at 0.6 of gap-squared density some hundred throws a dot suffice.
    private const int LargestThrowsPerDot = 20_000;

    /// <summary>Draws the dots of a picture and its margin.</summary>
    /// <param name="width">Width of the picture, px.</param>
    /// <param name="height">Height of the picture, px.</param>
    /// <param name="settings">Diameter, density, gap, contrast and seed.</param>
    /// <returns>The dots in the order drawn; the same for the same arguments.</returns>
    /// <exception cref="ConfigurationException">The settings cannot be met.</exception>
    public static IReadOnlyList<Dot> Draw(int width, int height, SpeckleSettings settings)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(height, 1);
        ArgumentNullException.ThrowIfNull(settings);
        IReadOnlyList<string> problems = settings.Problems();
        if (problems.Count > 0)
            throw new ConfigurationException(problems);

        double margin = settings.MarginPixels;
        double fullWidth = width + (2 * margin);
        double fullHeight = height + (2 * margin);
        int count = (int)Math.Round(settings.DotsPerPixel * fullWidth * fullHeight);
        var random = new SeededRandom(settings.Seed);
        var neighbours = new GapGrid(fullWidth, fullHeight, settings.MinimumGapPixels);
        var dots = new List<Dot>(count);
        int throwsLeft = LargestThrowsPerDot;
        while (dots.Count < count)
        {
            double x = random.NextUniform() * fullWidth;
            double y = random.NextUniform() * fullHeight;
            if (!neighbours.TryAdd(x, y))
            {
                if (--throwsLeft == 0)
                    throw new ConfigurationException([FormattableString.Invariant($"No room was found for a dot after {LargestThrowsPerDot} throws; make the least gap of {settings.MinimumGapPixels} px or the density smaller.")]);
                continue;
            }

            throwsLeft = LargestThrowsPerDot;
            double contrast = settings.ContrastFrom + (random.NextUniform() * (settings.ContrastTo - settings.ContrastFrom));
            // Pixel centres are at integers, so the picture's edge is at -0.5.
            dots.Add(new Dot(x - margin - 0.5, y - margin - 0.5, contrast));
        }

        return dots;
    }
}
