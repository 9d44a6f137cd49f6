using BosFlow.Cli.CaseFile.Keys;

namespace BosFlow.Cli.CaseFile.Sections;

/// <summary>Keys of [region].</summary>
internal static class RegionKeys
{
    private const string Name = "region";

    public static readonly RectangleKey Interest = new()
    {
        Section = Name,
        Name = "interest_px",
        Description = "Rectangle [x, y, width, height] that is measured; the whole picture where it is not given.",
        Example = "[100, 50, 800, 600]",
    };

    public static readonly PolygonsKey Exclude = new()
    {
        Section = Name,
        Name = "exclude",
        Description = "Polygons that are never measured: a nozzle, a glint, the board's frame. Corners [x, y] in px of the reference.",
        Example = "[[[0, 0], [200, 0], [200, 90]]]",
    };

    public static readonly PolygonsKey Flow = new()
    {
        Section = Name,
        Name = "flow",
        Description = "Polygons where the flow may be. They take no part in finding the camera's shake, and the noise floor is told from everything outside them, with which sigma is compared.",
        Example = "[[[400, 100], [900, 100], [900, 500]]]",
    };

    public static readonly CaseSection Section = new(Name, "Which parts of the picture count, in px; x to the right, y down, from the middle of the first pixel.", [Interest, Exclude, Flow]);
}
