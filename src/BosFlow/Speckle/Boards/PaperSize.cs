namespace BosFlow.Speckle.Boards;

/// <summary>A size of paper.</summary>
/// <param name="Name">Its usual name.</param>
/// <param name="WidthMetres">Shorter side, m.</param>
/// <param name="HeightMetres">Longer side, m.</param>
/// <remarks>Source of the A sizes: ISO 216. Letter (8.5 x 11 inch) and Tabloid (11 x 17 inch): ANSI/ASME Y14.1, sizes A and B (from memory).</remarks>
public sealed record PaperSize(string Name, double WidthMetres, double HeightMetres)
{
    /// <summary>The sizes that are known by name, small ones first.</summary>
    public static IReadOnlyList<PaperSize> Known { get; } =
    [
        new("A4", 0.210, 0.297), new("A3", 0.297, 0.420), new("A2", 0.420, 0.594), new("A1", 0.594, 0.841), new("A0", 0.841, 1.189),
        new("Letter", 0.2159, 0.2794), new("Tabloid", 0.2794, 0.4318),
    ];

    /// <summary>The same sheet turned by a quarter.</summary>
    public PaperSize Turned => new(Name, HeightMetres, WidthMetres);

    /// <summary>Finds a size by its name, whatever the case of its letters; null for none.</summary>
    /// <param name="name">Its name.</param>
    public static PaperSize? Find(string name) => Known.FirstOrDefault(size => string.Equals(size.Name, name, StringComparison.OrdinalIgnoreCase));
}
