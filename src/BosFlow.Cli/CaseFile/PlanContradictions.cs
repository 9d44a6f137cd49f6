using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Sections;

namespace BosFlow.Cli.CaseFile;

/// <summary>Finds what is wrong between the keys of [camera], [expected] and [limits], and between them and [rig].</summary>
internal static class PlanContradictions
{
    /// <summary>Notes every contradiction between keys that are there.</summary>
    /// <param name="values">The keys of the file.</param>
    /// <param name="problems">Receives the sentences.</param>
    public static void Find(CaseValues values, CaseProblems problems)
    {
        Camera(values, problems);
        Expected(values, problems);
        Limits(values, problems);
    }

    /// <summary>Notes what a plan needs and has not.</summary>
    /// <param name="values">The keys of the file and the options.</param>
    /// <param name="problems">Receives the sentences.</param>
    public static void Missing(CaseValues values, CaseProblems problems)
    {
        bool measured = values.Has(RigKeys.BackgroundScale) && !values.Has(RigKeys.FocalLength);
        if (measured)
            problems.Add(values.LineOf(RigKeys.BackgroundScale), "rig.background_mm_per_px is the scale of a rig that stands; a plan reckons it from focal_length_mm and pixel_pitch_um, so give these in its place.");
        foreach (CaseKey needed in new CaseKey[] { RigKeys.LensToFlow, RigKeys.FlowToBackground, RigKeys.FocalLength, RigKeys.PixelPitch, RigKeys.FNumber, CameraKeys.PictureWidth, CameraKeys.PictureHeight })
        {
            bool told = measured && (needed == RigKeys.FocalLength || needed == RigKeys.PixelPitch);
            if (!values.Has(needed) && !told)
                problems.Add(0, $"a plan needs {needed.Name}, which is not given; write it under [{needed.Section}] of the case file, or give {CaseOption.NameOf(needed)}.");
        }
    }

    private static void Camera(CaseValues values, CaseProblems problems)
    {
        if (values.Number(CameraKeys.Focus) is double focus && values.Number(RigKeys.FocalLength) is double focal && focus <= focal)
            problems.Add(values.LineOf(CameraKeys.Focus), FormattableString.Invariant($"camera.focus_mm = {focus} is not beyond the focal length, {focal} mm; no lens can focus there, so check both."));
        if (values.Has(CameraKeys.VibrationRate) && !values.Has(CameraKeys.Vibration))
            problems.Add(values.LineOf(CameraKeys.VibrationRate), "camera.vibration_hz is the frequency of vibration_mrad, which is not given; give that too, or remove the frequency.");
    }

    private static void Expected(CaseValues values, CaseProblems problems)
    {
        // A kind that could not be read was told already; every other sentence would only guess.
        if (values.Has(ExpectedKeys.Kind) && !values.IsUsable(ExpectedKeys.Kind))
            return;
        if (!values.Has(ExpectedKeys.Kind))
        {
            foreach (CaseKey key in ExpectedKeyUse.Describing.Where(values.Has))
                problems.Add(values.LineOf(key), $"expected.{key.Name} describes a flow whose kind is not given; set kind = {string.Join(" or ", Takers(key))}, or remove the key.");
            return;
        }

        ExpectedKind kind = values.Or(ExpectedKeys.Kind, default);
        string word = ExpectedKeyUse.WordOf(kind);
        ExpectedKeyUse use = ExpectedKeyUse.Of(kind);
        foreach (CaseKey key in use.Needed.Where(key => !values.Has(key)))
            problems.Add(values.LineOf(ExpectedKeys.Kind), $"expected.kind = \"{word}\" needs {key.Name}; write it under [expected], or give {CaseOption.NameOf(key)}.");
        foreach (CaseKey key in ExpectedKeys.Section.Keys.Where(key => values.Has(key) && !use.Takes(key)))
            problems.Add(values.LineOf(key), $"expected.{key.Name} is for kind = {string.Join(" or ", Takers(key))}, and the kind is \"{word}\" ({values.LineOf(ExpectedKeys.Kind)}); remove it, or change the kind.");
    }

    private static IEnumerable<string> Takers(CaseKey key) =>
        ExpectedKeyUse.All.Where(use => use.Takes(key)).Select(use => $"\"{ExpectedKeyUse.WordOf(use.Kind)}\"");

    private static void Limits(CaseValues values, CaseProblems problems)
    {
        if (values.Number(LimitsKeys.ShortestFlowToBackground) is double shortest && values.Number(LimitsKeys.LongestFlowToBackground) is double longest && shortest > longest)
        {
            problems.Add(
                values.LineOf(LimitsKeys.ShortestFlowToBackground),
                FormattableString.Invariant($"limits.shortest_flow_to_background_mm = {shortest} is longer than longest_flow_to_background_mm = {longest} ({values.LineOf(LimitsKeys.LongestFlowToBackground)}); exchange the two."));
        }

        double least = (values.Number(LimitsKeys.ShortestLensToFlow) ?? 0) + (values.Number(LimitsKeys.ShortestFlowToBackground) ?? 0);
        if (values.Number(LimitsKeys.LongestBoardDistance) is double board && least >= board)
        {
            problems.Add(
                values.LineOf(LimitsKeys.LongestBoardDistance),
                FormattableString.Invariant($"limits.longest_board_distance_mm = {board} leaves no room: the shortest distances on both sides of the flow already add to {least} mm; lengthen it, or shorten these."));
        }
    }
}
