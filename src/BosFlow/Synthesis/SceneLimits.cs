using BosFlow.Camera;

namespace BosFlow.Synthesis;

/// <summary>What a scene's motion must keep to, so that every frame can be rendered truly.</summary>
internal static class SceneLimits
{
    // Parts of the height at whose ends the motion is looked at.
    private const int Parts = 16;

    /// <summary>Refuses a motion that shows bare edges, or one that runs along with the readout.</summary>
    /// <param name="recipe">The recipe.</param>
    /// <param name="camera">Its camera.</param>
    /// <param name="flow">Largest displacement by the flow, px.</param>
    /// <exception cref="ConfigurationException">The motion is too large or too fast.</exception>
    public static void Require(SceneRecipe recipe, SceneCamera camera, double flow)
    {
        double largest = 0;
        double fastest = 0;
        for (int frame = 0; frame < recipe.FrameCount; frame++)
        {
            FrameView view = camera.SensorViewOf(frame);
            foreach (double row in Rows(recipe))
            {
                foreach ((double x, double y) in Corners(recipe))
                {
                    (double seenX, double seenY) = view.SeenThroughIdeal(row, x, y, 0);
                    largest = Math.Max(largest, Math.Max(Math.Abs(seenX - x), Math.Abs(seenY - y)));
                    if (recipe.Shutter is { ReadoutSeconds: > 0 })
                        fastest = Math.Max(fastest, Math.Abs(view.SeenThroughIdeal(row + 1, x, y, 0).Y - seenY));
                }
            }
        }

        // Dots must come from beyond every edge, or the edges of some frame would be bare.
        double needed = Math.Ceiling(largest + LensReach(recipe) + flow + camera.Border + (3 * recipe.Speckle.ImagePixels / 2));
        if (needed > recipe.Speckle.MarginPixels)
            throw new ConfigurationException([FormattableString.Invariant($"Motion, lens and flow bring dots from up to {needed} px outside the picture into view; make the margin of {recipe.Speckle.MarginPixels} px at least as large.")]);
        if (fastest > FrameView.LargestSlope)
            throw new ConfigurationException([FormattableString.Invariant($"The vibration moves the picture by up to {fastest:0.##} px from one row's readout to the next, and more than {FrameView.LargestSlope} px cannot be rendered; lessen its shift or its frequencies, or shorten the readout.")]);
    }

    /// <summary>How far beyond its edges an ideal picture reaches that the lens draws into the picture, px.</summary>
    private static double LensReach(SceneRecipe recipe)
    {
        if (recipe.Lens is not { } parameters)
            return 0;
        var lens = new LensModel(parameters);
        double reach = 0;
        foreach ((double x, double y) in Corners(recipe))
        {
            (double idealX, double idealY) = lens.ToIdeal(x, y);
            if (!double.IsFinite(idealX))
                throw new ConfigurationException(["The lens shows nothing in a corner of the picture: its terms turn the picture back before they reach it; give smaller terms."]);
            reach = Math.Max(reach, Math.Max(Math.Abs(idealX - x), Math.Abs(idealY - y)));
        }

        return reach;
    }

    /// <summary>Longest way that a corner goes within one exposure of a frame, px.</summary>
    public static double LongestSmear(FrameView view, SceneRecipe recipe, double exposureSeconds)
    {
        double longest = 0;
        for (int part = 0; part <= Parts; part++)
        {
            double row = part * recipe.Height / (double)Parts;
            foreach ((double x, double y) in Corners(recipe))
            {
                double way = 0;
                (double beforeX, double beforeY) = view.SeenFrom(row, x, y, -exposureSeconds / 2);
                for (int step = 1; step <= Parts; step++)
                {
                    (double nextX, double nextY) = view.SeenFrom(row, x, y, exposureSeconds * ((step / (double)Parts) - 0.5));
                    way += double.Hypot(nextX - beforeX, nextY - beforeY);
                    (beforeX, beforeY) = (nextX, nextY);
                }

                longest = Math.Max(longest, way);
            }
        }

        return longest;
    }

    private static IEnumerable<double> Rows(SceneRecipe recipe) =>
        recipe.Shutter is { ReadoutSeconds: > 0 } ? Enumerable.Range(0, Parts + 1).Select(part => part * recipe.Height / (double)Parts) : [0];

    private static (double X, double Y)[] Corners(SceneRecipe recipe) =>
        [(0, 0), (recipe.Width - 1, 0), (0, recipe.Height - 1), (recipe.Width - 1, recipe.Height - 1)];
}
