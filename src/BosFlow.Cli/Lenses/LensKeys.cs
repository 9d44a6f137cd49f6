using BosFlow.Camera;
using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Sections;

namespace BosFlow.Cli.Lenses;

/// <summary>Keys of a lens file.</summary>
internal static class LensKeys
{
    private const string Lens = "lens";
    private const string Calibration = "calibration";
    private const string Uncertainty = "uncertainty";

    public static readonly ChoiceKey<LensKind> Model = new()
    {
        Section = Lens,
        Name = "model",
        Description = "Family of the lens.",
        Choices = [("pinhole", LensKind.Pinhole), ("fisheye", LensKind.Fisheye)],
    };

    public static readonly IntegerKey Width = Size("picture_width_px");
    public static readonly IntegerKey Height = Size("picture_height_px");
    public static readonly NumberKey FocalX = Number(Lens, "focal_length_x_px", 1, 1e6);
    public static readonly NumberKey FocalY = Number(Lens, "focal_length_y_px", 1, 1e6);
    public static readonly NumberKey CentreX = Number(Lens, "centre_x_px", -1e5, 1e5);
    public static readonly NumberKey CentreY = Number(Lens, "centre_y_px", -1e5, 1e5);
    public static readonly IReadOnlyList<NumberKey> Radial = [.. Enumerable.Range(1, 4).Select(i => Number(Lens, FormattableString.Invariant($"radial_{i}"), -1e3, 1e3))];
    public static readonly IReadOnlyList<NumberKey> Tangential = [.. Enumerable.Range(1, 2).Select(i => Number(Lens, FormattableString.Invariant($"tangential_{i}"), -10, 10))];

    /// <summary>The sections: the lens itself, the standard uncertainty of its numbers, and where it came from.</summary>
    public static readonly IReadOnlyList<CaseSection> Sections =
    [
        new(Lens, "The lens.", [Model, Width, Height, FocalX, FocalY, CentreX, CentreY, .. Radial, .. Tangential]),
        new(Uncertainty, "Standard uncertainty of the numbers.",
        [
            .. new[] { FocalX, FocalY, CentreX, CentreY }.Concat(Radial).Concat(Tangential).Select(key => Number(Uncertainty, key.Name, 0, 1e9)),
        ]),
        new(Calibration, "Where the lens came from.",
        [
            .. new[] { "date", "program", "target" }.Select(name => new TextKey { Section = Calibration, Name = name, Description = name, What = "a text" }),
            Number(Calibration, "pictures_used", 0, 1e6), Number(Calibration, "pictures_rejected", 0, 1e6),
            Number(Calibration, "reprojection_rms_px", 0, 1e6), Number(Calibration, "reprojection_largest_px", 0, 1e6), Number(Calibration, "coverage_percent", 0, 100),
            new TextListKey { Section = Calibration, Name = "inputs", Description = "SHA-256 and name of each file." },
        ]),
    ];

    private static IntegerKey Size(string name) => new() { Section = Lens, Name = name, Description = "Size of the pictures.", Minimum = 16, Maximum = 65536 };

    private static NumberKey Number(string section, string name, double least, double most) =>
        new() { Section = section, Name = name, Description = name, Minimum = least, Maximum = most };
}
