using BosFlow.Cli.CaseFile;
using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Synthesis;

namespace BosFlow.Cli.Scenes;

/// <summary>Turns the keys of [stabilisation] and [recorder] into settings.</summary>
internal static class RecorderMapping
{
    /// <summary>The stabilisation; null without its section.</summary>
    /// <param name="values">Checked values.</param>
    public static StabilisationSettings? Stabilisation(CaseValues values)
    {
        if (!RecorderKeys.StabilisationSection.Keys.Any(values.Has))
            return null;
        var standard = new StabilisationSettings();
        return new StabilisationSettings
        {
            SmoothingFrames = values.Or(RecorderKeys.Smoothing, standard.SmoothingFrames),
            BorderPixels = values.Or(RecorderKeys.Border, standard.BorderPixels),
        };
    }

    /// <summary>Lost and repeated frames; null without their section.</summary>
    /// <param name="values">Checked values.</param>
    public static FrameOrder? Order(CaseValues values) => !RecorderKeys.RecorderSection.Keys.Any(values.Has) ? null : new FrameOrder
    {
        LostBefore = values.Or(RecorderKeys.LostBefore, []),
        Repeated = values.Or(RecorderKeys.Repeated, []),
        StampsTell = values.Or(RecorderKeys.StampsTell, true),
    };

    /// <summary>Finds frames that the scene does not have.</summary>
    /// <param name="values">Checked values.</param>
    /// <param name="problems">Takes the sentences.</param>
    public static void FindContradictions(CaseValues values, CaseProblems problems)
    {
        int frames = values.Or(SceneKeys.Frames, int.MaxValue);
        foreach (WholeNumberListKey key in (WholeNumberListKey[])[RecorderKeys.LostBefore, RecorderKeys.Repeated])
        {
            foreach (int frame in values.Or(key, []).Where(frame => frame >= frames))
                problems.Add(values.LineOf(key), $"{key.FullName} holds {frame}, but the scene's frames end at {frames - 1}; take it out.");
        }
    }
}
