using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Sections;

namespace BosFlow.Cli.CaseFile;

/// <summary>Finds what is wrong between the keys of [rig].</summary>
internal static class RigContradictions
{
    /// <summary>Notes every contradiction of a rig that the file has.</summary>
    /// <param name="values">The keys of the file.</param>
    /// <param name="line">Line of the heading; 0 where it has none.</param>
    /// <param name="problems">Receives the sentences.</param>
    public static void Find(CaseValues values, int line, CaseProblems problems)
    {
        foreach (CaseKey needed in new CaseKey[] { RigKeys.LensToFlow, RigKeys.FlowToBackground })
        {
            if (!values.Has(needed))
                problems.Add(line, $"rig.{needed.Name} is missing; give it, or remove the whole section to measure displacements in px only.");
        }

        if (!values.Has(RigKeys.BackgroundScale))
            Lens(values, line, problems);
        Between(values, problems);
    }

    /// <summary>Notes what is wrong between keys of a rig, whichever of them are there.</summary>
    /// <param name="values">The keys of the file.</param>
    /// <param name="problems">Receives the sentences.</param>
    public static void Between(CaseValues values, CaseProblems problems)
    {
        KeyRelations.Exclude(values, problems, RigKeys.BackgroundScale, RigKeys.FocalLength);
        KeyRelations.Exclude(values, problems, RigKeys.BackgroundScale, RigKeys.PixelPitch);
        if (!values.Has(RigKeys.BackgroundScale))
            LensReachesBackground(values, problems);
        Uncertainties(values, problems);
    }

    private static void Lens(CaseValues values, int line, CaseProblems problems)
    {
        bool focal = values.Has(RigKeys.FocalLength);
        bool pitch = values.Has(RigKeys.PixelPitch);
        if (focal && !pitch)
            problems.Add(values.LineOf(RigKeys.FocalLength), "rig.focal_length_mm needs rig.pixel_pitch_um beside it; give that, or background_mm_per_px in place of both.");
        else if (pitch && !focal)
            problems.Add(values.LineOf(RigKeys.PixelPitch), "rig.pixel_pitch_um needs rig.focal_length_mm beside it; give that, or background_mm_per_px in place of both.");
        else if (!focal)
            problems.Add(line, "rig has no scale; give background_mm_per_px, or focal_length_mm and pixel_pitch_um.");
    }

    private static void LensReachesBackground(CaseValues values, CaseProblems problems)
    {
        if (!values.Has(RigKeys.FocalLength))
            return;
        double focal = values.Number(RigKeys.FocalLength) ?? 0;
        double distance = (values.Number(RigKeys.LensToFlow) ?? double.PositiveInfinity) + (values.Number(RigKeys.FlowToBackground) ?? 0);
        if (focal >= distance)
        {
            problems.Add(
                values.LineOf(RigKeys.FocalLength),
                FormattableString.Invariant($"rig.focal_length_mm = {focal} is not less than the distance to the background, {distance} mm; no lens can focus there, so check both."));
        }
    }

    private static void Uncertainties(CaseValues values, CaseProblems problems)
    {
        // A distance that is missing has its own sentence already.
        if (values.Has(RigKeys.LensToFlow))
            KeyRelations.Uncertainty(values, problems, RigKeys.LensToFlowSigma, RigKeys.LensToFlow);
        if (values.Has(RigKeys.FlowToBackground))
            KeyRelations.Uncertainty(values, problems, RigKeys.FlowToBackgroundSigma, RigKeys.FlowToBackground);
        KeyRelations.Uncertainty(values, problems, RigKeys.BackgroundScaleSigma, RigKeys.BackgroundScale);
        KeyRelations.Uncertainty(values, problems, RigKeys.FocalLengthSigma, RigKeys.FocalLength);
    }
}
