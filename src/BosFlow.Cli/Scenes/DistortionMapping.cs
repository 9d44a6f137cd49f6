using BosFlow.Camera;
using BosFlow.Cli.CaseFile;
using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Synthesis;

namespace BosFlow.Cli.Scenes;

/// <summary>Turns the keys of [lens] and [drift] into settings.</summary>
internal static class DistortionMapping
{
    /// <summary>The lens; null without its section.</summary>
    /// <param name="values">Checked values.</param>
    /// <param name="width">Width of the pictures, px.</param>
    /// <param name="height">Height of the pictures, px.</param>
    public static LensParameters? Lens(CaseValues values, int width, int height)
    {
        if (values.Number(DistortionKeys.FocalX) is not { } focal)
            return null;
        double Of(NumberKey key) => values.Or(key, 0);
        return new LensParameters
        {
            Kind = values.Or(DistortionKeys.Model, LensKind.Pinhole),
            Width = width,
            Height = height,
            FocalX = focal,
            FocalY = values.Number(DistortionKeys.FocalY) ?? focal,
            CentreX = values.Number(DistortionKeys.CentreX) ?? (width - 1) / 2.0,
            CentreY = values.Number(DistortionKeys.CentreY) ?? (height - 1) / 2.0,
            Radial1 = Of(DistortionKeys.Radial[0]),
            Radial2 = Of(DistortionKeys.Radial[1]),
            Radial3 = Of(DistortionKeys.Radial[2]),
            Radial4 = Of(DistortionKeys.Radial[3]),
            Tangential1 = Of(DistortionKeys.Tangential[0]),
            Tangential2 = Of(DistortionKeys.Tangential[1]),
        };
    }

    /// <summary>The drift; null without its section.</summary>
    /// <param name="values">Checked values.</param>
    public static DriftSettings? Drift(CaseValues values) => !DistortionKeys.DriftSection.Keys.Any(values.Has) ? null : new DriftSettings
    {
        ShiftPixels = values.Or(DistortionKeys.DriftShift, 0),
        ScalePercent = values.Or(DistortionKeys.DriftScale, 0),
        BendPixels = values.Or(DistortionKeys.DriftBend, 0),
    };

    /// <summary>Finds what contradicts itself.</summary>
    /// <param name="values">Checked values.</param>
    /// <param name="problems">Takes the sentences.</param>
    public static void FindContradictions(CaseValues values, CaseProblems problems)
    {
        if (DistortionKeys.LensSection.Keys.FirstOrDefault(values.Has) is not { } given)
            return;
        if (!values.Has(DistortionKeys.FocalX))
            problems.Add(values.LineOf(given), "lens.focal_length_x_px is missing; a lens needs its focal length in pixels.");
        bool fisheye = values.Or(DistortionKeys.Model, LensKind.Pinhole) == LensKind.Fisheye;
        IReadOnlyList<NumberKey> foreign = fisheye ? DistortionKeys.Tangential : [DistortionKeys.Radial[3]];
        foreach (NumberKey key in foreign.Where(values.Has))
            problems.Add(values.LineOf(key), $"{key.FullName} is no number of a {(fisheye ? "fisheye" : "pinhole")} lens; remove it, or change lens.model.");
        if (RecorderKeys.StabilisationSection.Keys.FirstOrDefault(values.Has) is { } stabilised)
            problems.Add(values.LineOf(stabilised), "[stabilisation] and [lens] exclude each other, since a stabilised picture is cut out of a larger one and its lens has no fixed middle; leave one of them out.");
    }
}
