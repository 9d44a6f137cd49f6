using BosFlow.Camera;
using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Sections;
using BosFlow.Cli.CaseFile.Toml;

namespace BosFlow.Cli.Scenes;

/// <summary>Keys of a scene recipe about the lens and about slow drift: [lens] and [drift]. The terms of the lens are those of a lens file.</summary>
internal static class DistortionKeys
{
    private const string Lens = "lens";
    private const string Drift = "drift";

    public static readonly ChoiceKey<LensKind> Model = new()
    {
        Section = Lens,
        Name = "model",
        Description = "Family of the lens.",
        Choices = [("pinhole", LensKind.Pinhole), ("fisheye", LensKind.Fisheye)],
        Default = TomlLiteral.Of("pinhole"),
    };

    public static readonly NumberKey FocalX = Focal("focal_length_x_px", "Focal length in pixel widths; needed where [lens] is given.");
    public static readonly NumberKey FocalY = Focal("focal_length_y_px", "Focal length in pixel heights; the same as in widths where not given.");
    public static readonly NumberKey CentreX = SceneKeys.Number(Lens, "centre_x_px", "Column of the optical axis; the middle of the picture where not given.", -1e5, 1e5, false, null);
    public static readonly NumberKey CentreY = SceneKeys.Number(Lens, "centre_y_px", "Row of the optical axis; the middle of the picture where not given.", -1e5, 1e5, false, null);
    public static readonly IReadOnlyList<NumberKey> Radial =
        [.. Enumerable.Range(1, 4).Select(i => SceneKeys.Number(Lens, FormattableString.Invariant($"radial_{i}"), i == 4 ? "Fourth radial term; fisheye only." : FormattableString.Invariant($"Radial term {i}."), -1e3, 1e3, false, 0))];

    public static readonly IReadOnlyList<NumberKey> Tangential =
        [.. Enumerable.Range(1, 2).Select(i => SceneKeys.Number(Lens, FormattableString.Invariant($"tangential_{i}"), FormattableString.Invariant($"Tangential term {i}; pinhole only."), -10, 10, false, 0))];

    public static readonly NumberKey DriftShift = SceneKeys.Number(Drift, "shift_px", "Shift to the right and down at the end.", -100, 100, false, 0);
    public static readonly NumberKey DriftScale = SceneKeys.Number(Drift, "scale_percent", "Change of scale about the middle of the picture at the end, percent.", -5, 5, false, 0);
    public static readonly NumberKey DriftBend = SceneKeys.Number(Drift, "bend_px", "Bending at the end: at half a height from the middle points move this far to the right, at half a width this far down, elsewhere with the square of the distance.", -20, 20, false, 0);

    /// <summary>The lens.</summary>
    public static readonly CaseSection LensSection = new(Lens, "The lens of the camera; without this section it is ideal. The truth is that of the ideal picture.", [Model, FocalX, FocalY, CentreX, CentreY, .. Radial, .. Tangential]);

    /// <summary>Slow drift.</summary>
    public static readonly CaseSection DriftSection = new(Drift, "Slow drift of the view, in proportion to time: what heat and a yielding mount do. Without this section there is none.", [DriftShift, DriftScale, DriftBend]);

    private static NumberKey Focal(string name, string description) => SceneKeys.Number(Lens, name, description, 0, 1e6, true, null);
}
