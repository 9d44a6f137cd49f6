using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Toml;

namespace BosFlow.Cli.CaseFile.Sections;

/// <summary>Keys of [board].</summary>
internal static class BoardKeys
{
    private const string Name = "board";

    public static readonly TextKey Description = new()
    {
        Section = Name,
        Name = "description",
        Description = "Description file that bosflow print wrote beside the board. With it, run tells the dots' size in px and checks it; results do not depend on it. Where the file is there, plan takes from it what the keys below leave open.",
        What = "the path of a description file",
        Example = TomlLiteral.Of("board.json"),
    };

    public static readonly NumberKey Width = Length("width_mm", "Width of the board; where missing, plan takes one as large as the camera sees.", 1189);

    public static readonly NumberKey Height = Length("height_mm", "Height of the board; where missing, plan takes one as large as the camera sees.", 841);

    public static readonly NumberKey Dot = Length("dot_mm", "Diameter of a dot on the paper; where missing, plan takes the one that it recommends.", 1);

    public static readonly NumberKey Coverage = Part("coverage", "Part of the pattern's area that dots cover.", 0.9, 0.35);

    public static readonly NumberKey Contrast = Part("contrast", "Grey level of the paper minus grey level of the ink in the picture, as part of full scale.", 1, 0.6);

    public static readonly NumberKey Depth = new()
    {
        Section = Name,
        Name = "depth_mm",
        Description = "How far the board reaches along the line of sight where it is tilted or uneven: all of it has to be sharp.",
        Minimum = 0,
        Maximum = 1e6,
        Default = TomlLiteral.Of(0.0),
    };

    public static readonly CaseSection Section = new(
        Name,
        "The printed background. run reads its description; the other keys are for plan alone.",
        [Description, Width, Height, Dot, Coverage, Contrast, Depth])
    {
        IsListedBriefly = true,
    };

    private static NumberKey Length(string name, string description, double example) => NumberKey.Positive(Name, name, description, 1e6, example);

    private static NumberKey Part(string name, string description, double maximum, double standard) => new()
    {
        Section = Name,
        Name = name,
        Description = description,
        Minimum = 0,
        AboveMinimum = true,
        Maximum = maximum,
        Default = TomlLiteral.Of(standard),
    };
}
