using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Sections;
using BosFlow.Cli.CaseFile.Toml;
using BosFlow.Displacement;

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
        Footage(values, problems);
        Reference(values, problems);
        Displacement(values, problems);
        bool hasRig = toml.Sections.Any(section => section.Name == RigKeys.Section.Name) || RigKeys.Section.Keys.Any(values.Has);
        if (hasRig)
            Rig(values, LineOf(toml, RigKeys.Section.Name), problems);
        Flow(values, hasRig, problems);
        Gas(values, problems);
    }

    private static void Footage(CaseValues values, CaseProblems problems)
    {
        if (!values.Has(FootageKeys.Frames) && !values.Has(FootageKeys.Video))
            problems.Add(0, "no footage is given; under [footage] write frames = \"frames/*.png\" or video = \"clip.mp4\".");
        Exclude(values, problems, FootageKeys.Video, FootageKeys.Frames);
        Exclude(values, problems, FootageKeys.UseSeconds, FootageKeys.Use);
        if (values.Has(FootageKeys.Video) && values.Has(FootageKeys.FrameRateHz))
        {
            problems.Add(
                values.LineOf(FootageKeys.FrameRateHz),
                "footage.frame_rate_hz is for image sequences; a video carries its own times, so remove it.");
        }
    }

    private static void Reference(CaseValues values, CaseProblems problems)
    {
        Exclude(values, problems, ReferenceKeys.Images, ReferenceKeys.Image);
        Exclude(values, problems, ReferenceKeys.Use, ReferenceKeys.Image);
        Exclude(values, problems, ReferenceKeys.Use, ReferenceKeys.Images);
    }

    private static void Displacement(CaseValues values, CaseProblems problems)
    {
        DisplacementSettings settings = CaseMapping.Displacement(values);
        if (settings.CoarseWindowPixels < settings.WindowPixels)
        {
            CaseKey given = values.Has(DisplacementKeys.CoarseWindow) ? DisplacementKeys.CoarseWindow : DisplacementKeys.Window;
            problems.Add(
                values.LineOf(given),
                $"displacement.coarse_window_px = {settings.CoarseWindowPixels} is smaller than window_px = {settings.WindowPixels}; the first window must be at least as large as the last.");
        }
    }

    private static void Rig(CaseValues values, int line, CaseProblems problems)
    {
        foreach (CaseKey needed in new CaseKey[] { RigKeys.LensToFlow, RigKeys.FlowToBackground })
        {
            if (!values.Has(needed))
                problems.Add(line, $"rig.{needed.Name} is missing; give it, or remove the whole section to measure displacements in px only.");
        }

        Exclude(values, problems, RigKeys.BackgroundScale, RigKeys.FocalLength);
        Exclude(values, problems, RigKeys.BackgroundScale, RigKeys.PixelPitch);
        if (values.Has(RigKeys.BackgroundScale))
            return;
        bool focal = values.Has(RigKeys.FocalLength);
        bool pitch = values.Has(RigKeys.PixelPitch);
        if (focal && !pitch)
            problems.Add(values.LineOf(RigKeys.FocalLength), "rig.focal_length_mm needs rig.pixel_pitch_um beside it; give that, or background_mm_per_px in place of both.");
        else if (pitch && !focal)
            problems.Add(values.LineOf(RigKeys.PixelPitch), "rig.pixel_pitch_um needs rig.focal_length_mm beside it; give that, or background_mm_per_px in place of both.");
        else if (!focal)
            problems.Add(line, "rig has no scale; give background_mm_per_px, or focal_length_mm and pixel_pitch_um.");
        else
            LensReachesBackground(values, problems);
    }

    private static void LensReachesBackground(CaseValues values, CaseProblems problems)
    {
        double focal = values.Number(RigKeys.FocalLength) ?? 0;
        double distance = (values.Number(RigKeys.LensToFlow) ?? double.PositiveInfinity) + (values.Number(RigKeys.FlowToBackground) ?? 0);
        if (focal >= distance)
        {
            problems.Add(
                values.LineOf(RigKeys.FocalLength),
                FormattableString.Invariant($"rig.focal_length_mm = {focal} is not less than the distance to the background, {distance} mm; no lens can focus there, so check both."));
        }
    }

    private static void Flow(CaseValues values, bool hasRig, CaseProblems problems)
    {
        bool planar = values.Optional(FlowKeys.Shape) == FlowKeys.Planar;
        bool length = values.Has(FlowKeys.PathLength);
        if (planar && !length)
            problems.Add(values.LineOf(FlowKeys.Shape), "flow.shape = \"planar\" needs path_length_mm, the length of the flow along the line of sight.");
        else if (length && !planar && !(values.Has(FlowKeys.Shape) && values.Optional(FlowKeys.Shape) is null))
            problems.Add(values.LineOf(FlowKeys.PathLength), "flow.path_length_mm is for shape = \"planar\"; set that shape, or remove the length.");
        if (planar && !hasRig)
            problems.Add(values.LineOf(FlowKeys.Shape), "flow.shape = \"planar\" needs the distances of [rig]; without them only displacements in px are measured.");
    }

    private static void Gas(CaseValues values, CaseProblems problems)
    {
        Exclude(values, problems, GasKeys.Density, GasKeys.Pressure);
        Exclude(values, problems, GasKeys.Density, GasKeys.Temperature);
        string name = values.Or(GasKeys.Gas, "air");
        if (name != "air" && !values.Has(GasKeys.GladstoneDale))
            problems.Add(values.LineOf(GasKeys.Gas), $"gas.name = \"{name}\" is not air; give its gladstone_dale_m3_per_kg beside it.");
    }

    private static void Exclude(CaseValues values, CaseProblems problems, CaseKey one, CaseKey other)
    {
        if (values.Has(one) && values.Has(other))
            problems.Add(values.LineOf(one), $"{one.FullName} and {other.Name} (line {values.LineOf(other)}) exclude each other; keep one of them.");
    }

    private static int LineOf(TomlText toml, string section) =>
        toml.Sections.FirstOrDefault(heading => heading.Name == section)?.Line ?? 0;
}
