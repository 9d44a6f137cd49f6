using BosFlow.Speckle;

namespace BosFlow.Synthesis;

/// <summary>The uneven light of one frame.</summary>
internal sealed class FrameLight
{
    private const long SteadyStream = -3;
    private const long HuntingStream = -4;
    private const long LampStream = -5;
    private readonly LightSettings settings;
    private readonly FrameView view;
    private readonly double centreX;
    private readonly double centreY;
    private readonly double lampPhase;
    private readonly double lampSwing;
    private readonly double gain;
    private readonly double vignette;

    /// <summary>Draws the light of a frame.</summary>
    /// <param name="recipe">The recipe, with light.</param>
    /// <param name="settings">Its light.</param>
    /// <param name="view">How the frame sees the view at rest, and when.</param>
    /// <param name="frame">Number of the frame.</param>
    public FrameLight(SceneRecipe recipe, LightSettings settings, FrameView view, int frame)
    {
        this.settings = settings;
        this.view = view;
        centreX = (recipe.Width - 1) / 2.0;
        centreY = (recipe.Height - 1) / 2.0;
        lampPhase = 2 * Math.PI * new SeededRandom(SeededRandom.PartSeed(recipe.Seed, LampStream, 0)).NextUniform();
        lampSwing = settings.FlickerPercent / 100 * MeanOfSine(Math.PI * settings.FlickerHertz * (recipe.Shutter?.ExposureSeconds ?? 0));
        double unsteady = new SeededRandom(SeededRandom.PartSeed(recipe.Seed, SteadyStream, frame)).NextNormal();
        double step = (2 * new SeededRandom(SeededRandom.PartSeed(recipe.Seed, HuntingStream, frame / settings.HuntingFrames)).NextUniform()) - 1;
        gain = Math.Max(0, 1 + (settings.UnsteadyPercent / 100 * unsteady)) * (1 + (settings.HuntingPercent / 100 * step));
        vignette = (1 / Math.Sqrt(1 - (settings.VignettingPercent / 100))) - 1;
    }

    /// <summary>Factor by which a row's light differs from that of a steady lamp: flicker averaged over the exposure, steps and scatter of the exposure.</summary>
    public double RowGain(double row) => gain * (1 + (lampSwing * Math.Sin((2 * Math.PI * settings.FlickerHertz * view.SecondsAt(row)) + lampPhase)));

    /// <summary>Lights a picture.</summary>
    /// <param name="levels">Row-major levels without unevenness.</param>
    /// <param name="width">Width of the picture, px.</param>
    /// <param name="border">Rows and columns that the picture has beyond the scene's, on every side, px.</param>
    /// <param name="cancellationToken">Stops between two rows.</param>
    public void Apply(float[] levels, int width, int border, CancellationToken cancellationToken) =>
        Parallel.For(0, levels.Length / width, new ParallelOptions { CancellationToken = cancellationToken }, line =>
        {
            double row = line - border;
            double rowGain = RowGain(row);
            for (int i = 0; i < width; i++)
            {
                ref float level = ref levels[(line * width) + i];
                level = (float)((level * rowGain * Share(i - border, row)) + Glare(i - border, row));
            }
        });

    /// <summary>Share of the light that reaches a pixel: vignetting, slant, shadow.</summary>
    private double Share(double x, double y)
    {
        double radius = (((x - centreX) * (x - centreX)) + ((y - centreY) * (y - centreY))) / ((centreX * centreX) + (centreY * centreY));
        // cos^4 = 1 / (1 + tan^2)^2, with tan^2 proportional to the squared distance from the middle.
        double share = 1 / ((1 + (vignette * radius)) * (1 + (vignette * radius)));
        if (settings.SlantPercent == 0 && settings.Shadow is null)
            return share;
        double seconds = view.SecondsAt(y);
        (double boardX, double boardY) = view.ToRest(x, y);
        double half = double.Hypot(centreX, centreY);
        share *= 1 + (settings.SlantPercent / 100 * Along(boardX, boardY, settings.SlantDegrees + (settings.SlantDegreesPerSecond * seconds)) / half);
        return settings.Shadow is ShadowSettings shadow ? share * Shade(shadow, boardX, boardY, seconds) : share;
    }

    private double Shade(ShadowSettings shadow, double x, double y, double seconds)
    {
        double inside = Along(x, y, shadow.Degrees) - shadow.PositionPixels - (shadow.PixelsPerSecond * seconds);
        return 1 - (shadow.Percent / 200 * (1 + ErrorFunction.Value(inside * 4 / (shadow.WidthPixels * Math.Sqrt(2)))));
    }

    private double Glare(double x, double y)
    {
        if (settings.Glare is not GlareSettings glare)
            return 0;
        double squared = (((x - glare.X) * (x - glare.X)) + ((y - glare.Y) * (y - glare.Y))) / (glare.RadiusPixels * glare.RadiusPixels);
        return glare.Level * Math.Exp(-squared);
    }

    /// <summary>Distance from the middle along a direction, counter-clockwise as seen.</summary>
    private double Along(double x, double y, double degrees)
    {
        (double sine, double cosine) = Math.SinCos(double.DegreesToRadians(degrees));
        return ((x - centreX) * cosine) - ((y - centreY) * sine);
    }

    private static double MeanOfSine(double halfAngle) => halfAngle == 0 ? 1 : Math.Sin(halfAngle) / halfAngle;
}
