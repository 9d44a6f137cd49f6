using BosFlow.Camera;
using BosFlow.Footage;
using BosFlow.Speckle;

namespace BosFlow.Synthesis;

/// <summary>Random dots seen through a lens and displaced by a field that is given in the ideal picture: exact truth for the correction of a lens.</summary>
public static class LensScene
{
    // A dot of 3 px across (four standard deviations), one in 30 px2: about 34 in a window of 32 px.
    private const double DotSigma = 0.75;
    private const double AreaOfDot = 30;
    private const double Margin = 0.35;
    private const double White = 255;

    /// <summary>Renders a picture.</summary>
    /// <param name="lens">The lens, with the picture's size.</param>
    /// <param name="displacement">Displacement at a place of the ideal picture, px.</param>
    /// <param name="seed">Seed of the dots: the same seed gives the same dots.</param>
    /// <param name="cancellationToken">Stops between two bands of rows.</param>
    /// <returns>8-bit levels, rounded.</returns>
    public static GrayImage Render(LensModel lens, Func<double, double, (double U, double V)> displacement, ulong seed, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(lens);
        ArgumentNullException.ThrowIfNull(displacement);
        (int width, int height) = (lens.Parameters.Width, lens.Parameters.Height);
        var random = new SeededRandom(seed);
        double share = 1 + (2 * Margin);
        int count = (int)(width * height * share * share / AreaOfDot);
        var dots = new List<Dot>(count);
        for (int i = 0; i < count; i++)
        {
            double x = width * ((share * random.NextUniform()) - Margin);
            double y = height * ((share * random.NextUniform()) - Margin);
            double contrast = 0.25 + (0.35 * random.NextUniform());
            (double u, double v) = displacement(x, y);
            (double column, double row) = lens.ToPicture(x + u, y + v);
            if (double.IsFinite(column))
                dots.Add(new Dot(column, row, contrast));
        }

        float[] levels = DotRenderer.Render(dots.ToArray(), width, height, DotSigma, 0.05, cancellationToken);
        for (int i = 0; i < levels.Length; i++)
            levels[i] = (float)Math.Round(White * Math.Clamp(levels[i], 0, 1));
        return new GrayImage(width, height, levels, (float)White);
    }
}
