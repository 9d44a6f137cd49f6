using BosFlow.Cli.CaseFile;
using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Synthesis;

namespace BosFlow.Cli.Scenes;

/// <summary>Turns the keys of [light] into settings.</summary>
internal static class LightMapping
{
    /// <summary>The light; null without its section.</summary>
    /// <param name="values">Checked values.</param>
    public static LightSettings? Light(CaseValues values)
    {
        if (!LightKeys.Section.Keys.Any(values.Has))
            return null;
        var standard = new LightSettings();
        double Of(TypedCaseKey<double> key) => values.Or(key, 0);
        return new LightSettings
        {
            VignettingPercent = Of(LightKeys.Vignetting),
            FlickerPercent = Of(LightKeys.Flicker),
            FlickerHertz = values.Or(LightKeys.FlickerFrequency, standard.FlickerHertz),
            UnsteadyPercent = Of(LightKeys.Unsteady),
            HuntingPercent = Of(LightKeys.Hunting),
            HuntingFrames = values.Or(LightKeys.HuntingFrames, standard.HuntingFrames),
            SlantPercent = Of(LightKeys.Slant),
            SlantDegrees = Of(LightKeys.SlantDirection),
            SlantDegreesPerSecond = Of(LightKeys.SlantTurning),
            Shadow = Of(LightKeys.Shadow) == 0 ? null : new ShadowSettings(
                Of(LightKeys.Shadow), Of(LightKeys.ShadowPosition), Of(LightKeys.ShadowDirection), Of(LightKeys.ShadowSpeed), values.Or(LightKeys.ShadowWidth, 8)),
            Glare = Of(LightKeys.Glare) == 0 ? null : new GlareSettings(Of(LightKeys.GlareX), Of(LightKeys.GlareY), values.Or(LightKeys.GlareRadius, 20), Of(LightKeys.Glare)),
        };
    }
}
