using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Sections;
using BosFlow.Synthesis;

namespace BosFlow.Cli.Scenes;

/// <summary>Keys of a scene recipe about uneven light: [light].</summary>
internal static class LightKeys
{
    private static readonly LightSettings Light = new();

    public static readonly NumberKey Vignetting = Percent("vignetting_percent", "Loss of light in the corners, by the fourth power of the cosine.", 95);
    public static readonly NumberKey Flicker = Percent("flicker_percent", "Half the swing of a flickering lamp, percent of its mean; bands where rows are read one after the other.", 100);
    public static readonly NumberKey FlickerFrequency = Number("flicker_hz", "Frequency of that light: twice the mains' for a plain lamp.", 0, 1e5, true, Light.FlickerHertz);
    public static readonly NumberKey Unsteady = Percent("unsteady_percent", "Standard deviation of the exposure from frame to frame.", 50);
    public static readonly NumberKey Hunting = Percent("hunting_percent", "Largest step of an automatic exposure that hunts.", 95);
    public static readonly IntegerKey HuntingFrames = SceneKeys.Whole("light", "hunting_frames", "Frames for which such a step lasts.", 1, 1_000_000, Light.HuntingFrames);
    public static readonly NumberKey Slant = Percent("slant_percent", "Half the difference of the light over the picture's diagonal, percent of the middle.", 95);
    public static readonly NumberKey SlantDirection = Number("slant_deg", "Direction of the brighter side in the first frame, counter-clockwise as seen, 0 = to the right.", -360, 360, false, 0);
    public static readonly NumberKey SlantTurning = Number("slant_deg_per_s", "Turning of that direction, as under a drifting sun.", -3600, 3600, false, 0);
    public static readonly NumberKey Shadow = Percent("shadow_percent", "Share of the light that a shadow on the board takes.", 100);
    public static readonly NumberKey ShadowPosition = Number("shadow_position_px", "Distance of its edge from the middle of the picture in the first frame, along its direction.", -1e5, 1e5, false, 0);
    public static readonly NumberKey ShadowDirection = Number("shadow_deg", "Direction towards its dark side, counter-clockwise as seen, 0 = to the right.", -360, 360, false, 0);
    public static readonly NumberKey ShadowSpeed = Number("shadow_px_per_s", "Speed of the edge along that direction.", -1e6, 1e6, false, 0);
    public static readonly NumberKey ShadowWidth = Number("shadow_edge_px", "Width of the edge's half-shadow, four standard deviations.", 0, 1e4, true, 8);
    public static readonly NumberKey Glare = Number("glare_level", "What the middle of a bright spot adds, share of full scale; 1 and more saturates.", 0, 1000, false, 0);
    public static readonly NumberKey GlareX = Number("glare_x_px", "Column of that spot.", -1e5, 1e5, false, 0);
    public static readonly NumberKey GlareY = Number("glare_y_px", "Row of that spot.", -1e5, 1e5, false, 0);
    public static readonly NumberKey GlareRadius = Number("glare_radius_px", "Distance at which it is down to 1/e.", 0, 1e4, true, 20);

    /// <summary>The section.</summary>
    public static readonly CaseSection Section = new("light", "Light that is uneven in place or time; without this section it is even and steady.",
        [Vignetting, Flicker, FlickerFrequency, Unsteady, Hunting, HuntingFrames, Slant, SlantDirection, SlantTurning,
            Shadow, ShadowPosition, ShadowDirection, ShadowSpeed, ShadowWidth, Glare, GlareX, GlareY, GlareRadius]);

    private static NumberKey Percent(string name, string description, double largest) => Number(name, description, 0, largest, false, 0);

    private static NumberKey Number(string name, string description, double minimum, double maximum, bool above, double standard) =>
        SceneKeys.Number("light", name, description, minimum, maximum, above, standard);
}
