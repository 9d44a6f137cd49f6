using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Toml;

namespace BosFlow.Cli.CaseFile.Sections;

/// <summary>Keys of [output].</summary>
internal static class OutputKeys
{
    private const string Name = "output";

    public static readonly TextKey Folder = new()
    {
        Section = Name,
        Name = "folder",
        Description = "Folder of the results, beside this file unless the path says otherwise.",
        What = "the path of a folder",
        Default = TomlLiteral.Of("run"),
    };

    public static readonly NumberKey KnifeEdge = new()
    {
        Section = Name,
        Name = "knife_edge_deg",
        Description = "Direction of the gradient that the knife-edge view shows, counter-clockwise as seen on the picture: 0 to the right, 90 upward.",
        Minimum = -360,
        Maximum = 360,
        Default = TomlLiteral.Of(0.0),
    };

    public static readonly CaseSection Section = new(Name, "Where the results go and how they are shown.", [Folder, KnifeEdge]);
}
