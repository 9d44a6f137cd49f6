using BosFlow.Speckle;

namespace BosFlow.Synthesis;

/// <summary>Renders a frame whose rows are exposed one after the other, each for a while.</summary>
internal static class ShutterRenderer
{
    /// <summary>The light of one frame.</summary>
    /// <param name="dots">Dots of the view at rest.</param>
    /// <param name="view">How the frame sees them.</param>
    /// <param name="recipe">Pictures, dots and shutter.</param>
    /// <param name="border">Rows and columns to render beyond the picture on every side, px.</param>
    /// <param name="cancellationToken">Stops between two bands of rows.</param>
    /// <returns>Row-major levels as a share of full scale.</returns>
    /// <remarks>A disc is rendered whole at the place where the row through its centre sees it; a Gaussian dot row by row.</remarks>
    public static float[] Render(Dot[] dots, FrameView view, SceneRecipe recipe, int border, CancellationToken cancellationToken)
    {
        SpeckleSettings speckle = recipe.Speckle;
        double exposure = recipe.Shutter?.ExposureSeconds ?? 0;
        double smear = exposure == 0 ? 0 : SceneLimits.LongestSmear(view, recipe, exposure);
        double highest = Math.Max(recipe.Shake?.HighestFrequencyHz ?? 0, recipe.Vibration?.HighestHertz ?? 0);
        int width = recipe.Width + (2 * border);
        float[] levels = new float[checked(width * (recipe.Height + (2 * border)))];
        Array.Fill(levels, (float)recipe.Sensor.Background);
        foreach ((double offset, double weight) in SmearRule.Moments(exposure, smear / speckle.DotSigmaPixels, highest))
        {
            MovingDot[] seen = Array.ConvertAll(view.See(dots, offset, cancellationToken), dot => dot with { Centre = dot.Centre with { X = dot.Centre.X + border, Y = dot.Centre.Y + border } });
            if (speckle.Shape == DotShape.Gaussian)
                MovingDotRenderer.Add(levels, seen, width, speckle.DotSigmaPixels, weight, cancellationToken);
            else
                AddDiscs(levels, seen, width, speckle, weight, cancellationToken);
        }

        return levels;
    }

    private static void AddDiscs(float[] levels, MovingDot[] seen, int width, SpeckleSettings speckle, double weight, CancellationToken cancellationToken)
    {
        Dot[] dots = Array.ConvertAll(seen, dot => dot.Centre);
        float[] light = DiscRenderer.Render(dots, width, levels.Length / width, speckle.DotDiameterPixels, speckle.DotSigmaPixels, 0, cancellationToken);
        for (int i = 0; i < levels.Length; i++)
            levels[i] += (float)(weight * light[i]);
    }
}
