namespace BosFlow.Footage;

/// <summary>Which parts of the reference picture are measured, and where the flow may be. All in px of the reference.</summary>
public sealed record RegionSettings
{
    /// <summary>Rectangle x, y, width, height that is measured, px; null = the whole picture.</summary>
    public PixelRectangle? Interest { get; init; }

    /// <summary>Polygons that are never measured.</summary>
    public IReadOnlyList<PixelPolygon> Exclude { get; init; } = [];

    /// <summary>Polygons where the flow may be: not used for registration. Empty = unknown, the whole picture is used robustly.</summary>
    public IReadOnlyList<PixelPolygon> Flow { get; init; } = [];
}
