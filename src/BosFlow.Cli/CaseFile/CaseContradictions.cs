using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Sections;
using BosFlow.Cli.CaseFile.Toml;
using BosFlow.Displacement;
using BosFlow.Registration;

namespace BosFlow.Cli.CaseFile;

/// <summary>Finds what is wrong between keys: missing ones, and ones that exclude each other.</summary>
internal static class CaseContradictions
{
    /// <summary>Notes every contradiction.</summary>
    /// <param name="values">The keys of the file.</param>
    /// <param name="toml">The file, for its headings.</param>
    /// <param name="problems">Receives the sentences.</param>
    public static void Find(CaseValues values, TomlText toml, CaseProblems problems)
    {
        if (!values.Has(FootageKeys.Frames) && !values.Has(FootageKeys.Video))
            problems.Add(0, "no footage is given; write under [footage] frames = \"frames/*.png\" or video = \"clip.mp4\".");
        Measuring(values, problems);
        bool hasRig = FindInRig(values, toml, problems);
        FlowContradictions.Find(values, hasRig, problems);
        GasContradictions.Find(values, problems);
        PlanContradictions.Find(values, problems);
    }

    /// <summary>Notes the contradictions of [rig] alone.</summary>
    /// <param name="values">The keys of the file.</param>
    /// <param name="toml">The file, for its headings.</param>
    /// <param name="problems">Receives the sentences.</param>
    /// <returns>Whether the file has a rig.</returns>
    public static bool FindInRig(CaseValues values, TomlText toml, CaseProblems problems)
    {
        bool hasRig = toml.Sections.Any(section => section.Name == RigKeys.Section.Name) || RigKeys.Section.Keys.Any(values.Has);
        if (hasRig)
            RigContradictions.Find(values, LineOf(toml, RigKeys.Section.Name), problems);
        return hasRig;
    }

    /// <summary>Notes what is wrong with a case that is to be planned: it needs lens and camera, and no footage yet.</summary>
    /// <param name="values">The keys of the file and the options.</param>
    /// <param name="problems">Receives the sentences.</param>
    public static void FindForPlan(CaseValues values, CaseProblems problems)
    {
        Measuring(values, problems);
        PlanContradictions.Missing(values, problems);
        RigContradictions.Between(values, problems);
        FlowContradictions.Find(values, hasRig: true, problems);
        GasContradictions.Find(values, problems);
        PlanContradictions.Find(values, problems);
    }

    private static void Measuring(CaseValues values, CaseProblems problems)
    {
        Footage(values, problems);
        Reference(values, problems);
        Registration(values, problems);
        Displacement(values, problems);
    }

    private static void Registration(CaseValues values, CaseProblems problems)
    {
        if (values.Or(RegistrationKeys.Readout, new ReadoutChoice(0)).Milliseconds == 0)
        {
            if (values.Has(RegistrationKeys.HighestVibration))
                problems.Add(values.LineOf(RegistrationKeys.HighestVibration), "registration.highest_vibration_hz counts only for a rolling shutter; give readout_ms too, or remove it.");
            return;
        }

        string? motion = values.Or(RegistrationKeys.Motion, MotionModel.Similarity) switch
        {
            MotionModel.None => "none",
            MotionModel.Homography => "homography",
            _ => null,
        };
        if (motion is not null)
            problems.Add(values.LineOf(RegistrationKeys.Readout), $"registration.readout_ms asks for a motion of each row, which motion = \"{motion}\" does not allow; write \"shift\" or \"similarity\".");
    }

    private static void Footage(CaseValues values, CaseProblems problems)
    {
        KeyRelations.Exclude(values, problems, FootageKeys.Video, FootageKeys.Frames);
        KeyRelations.Exclude(values, problems, FootageKeys.UseSeconds, FootageKeys.Use);
        if (values.Has(FootageKeys.Video) && values.Has(FootageKeys.FrameRateHz))
        {
            problems.Add(
                values.LineOf(FootageKeys.FrameRateHz),
                "footage.frame_rate_hz is for image sequences; a video carries its own times, so remove it.");
        }
    }

    private static void Reference(CaseValues values, CaseProblems problems)
    {
        KeyRelations.Exclude(values, problems, ReferenceKeys.Images, ReferenceKeys.Image);
        KeyRelations.Exclude(values, problems, ReferenceKeys.Use, ReferenceKeys.Image);
        KeyRelations.Exclude(values, problems, ReferenceKeys.Use, ReferenceKeys.Images);
        if (values.Has(ReferenceKeys.UseLater) && !values.Has(ReferenceKeys.Use))
            problems.Add(values.LineOf(ReferenceKeys.UseLater), "reference.use_later names further flow-off frames, but reference.use names no first ones; give use.");
        if (values.Or(ReferenceKeys.Drift, DriftHandling.Remove) == DriftHandling.Report && !values.Has(ReferenceKeys.UseLater))
            problems.Add(values.LineOf(ReferenceKeys.Drift), "reference.drift says what to do about the drift that later flow-off frames show; give use_later too, or remove it.");
        if (values.Has(ReferenceKeys.UseLater) && values.Or(RegistrationKeys.Motion, MotionModel.Similarity) == MotionModel.None)
            problems.Add(values.LineOf(ReferenceKeys.UseLater), "reference.use_later needs a registration, since with motion = \"none\" the shake of one picture would count as drift; choose another motion, or remove it.");
    }

    private static void Displacement(CaseValues values, CaseProblems problems)
    {
        DisplacementSettings settings = CaseMapping.Displacement(values);
        if (DisplacementSettingsCheck.AdaptiveProblem(settings) is { } problem)
            problems.Add(values.LineOf(DisplacementKeys.Windows), problem);
        if (DisplacementSettingsCheck.ShapeProblem(settings) is { } ofShape)
            problems.Add(values.LineOf(DisplacementKeys.Shape), ofShape);
        if (settings.CoarseWindowPixels < settings.WindowPixels)
        {
            CaseKey given = values.Has(DisplacementKeys.CoarseWindow) ? DisplacementKeys.CoarseWindow : DisplacementKeys.Window;
            problems.Add(
                values.LineOf(given),
                $"displacement.coarse_window_px = {settings.CoarseWindowPixels} is smaller than window_px = {settings.WindowPixels}; the first window must be at least as large as the last.");
        }
    }

    private static int LineOf(TomlText toml, string section) =>
        toml.Sections.FirstOrDefault(heading => heading.Name == section)?.Line ?? 0;
}
