using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Toml;

namespace BosFlow.Cli.CaseFile.Sections;

/// <summary>Keys of [flow].</summary>
internal static class FlowKeys
{
    /// <summary>The shape for which a path length is needed.</summary>
    public const string Planar = "planar";

    private const string Name = "flow";
    private const string PathIntegrated = "path-integrated";

    public static readonly ChoiceKey<string> Shape = new()
    {
        Section = Name,
        Name = "shape",
        Description = "What is known of the flow along the line of sight: path-integrated gives integrals along the ray; planar (the same over path_length_mm) gives the gradient itself too.",
        Choices = [(PathIntegrated, PathIntegrated), (Planar, Planar)],
        Refused = [("axisymmetric", "is not converted by this version; use \"path-integrated\", whose maps hold for every shape of flow.")],
        Default = TomlLiteral.Of(PathIntegrated),
    };

    public static readonly NumberKey PathLength = new()
    {
        Section = Name,
        Name = "path_length_mm",
        Description = "Length of the flow along the line of sight, for shape = \"planar\".",
        Minimum = 0,
        AboveMinimum = true,
        Maximum = 1e7,
        Example = TomlLiteral.Of(120.0),
    };

    public static readonly ReservedKey Axis = new()
    {
        Section = Name,
        Name = "axis",
        Description = "Axis of an axisymmetric flow. This version does not convert such flows.",
        Sentence = "belongs to axisymmetric flows, which this version does not convert; remove it.",
    };

    public static readonly CaseSection Section = new(Name, "The shape of the flow along the line of sight.", [Shape, PathLength, Axis]);
}
