using BosFlow.Displacement;

namespace BosFlow.Results.Maps;

/// <summary>What one false-colour map shows.</summary>
public sealed record MapSpecification
{
    /// <summary>The quantity in words.</summary>
    public required string Title { get; init; }

    /// <summary>What the sign or the size means, in one sentence below the title; empty for none.</summary>
    public string Note { get; init; } = string.Empty;

    /// <summary>Short name for the colour bar, for example u.</summary>
    public required string Symbol { get; init; }

    /// <summary>Unit in CF notation; "1" where it has none.</summary>
    public required string Unit { get; init; }

    /// <summary>Window centres, px of the picture.</summary>
    public required NodeGrid Grid { get; init; }

    /// <summary>One number a node; NaN is shown as not measured.</summary>
    public required float[] Values { get; init; }

    /// <summary>How each node is shown.</summary>
    public required CellState[] Cells { get; init; }

    /// <summary>What a value without colour is, for the legend.</summary>
    public string MissingText { get; init; } = "not measured";

    /// <summary>What a dot says, for the legend.</summary>
    public string MarkText { get; init; } = "replaced or doubtful";

    /// <summary>Lines over the map, such as the axis of the flow.</summary>
    public IReadOnlyList<MapLine> Lines { get; init; } = [];

    /// <summary>Width of the picture that was measured, px.</summary>
    public required int Width { get; init; }

    /// <summary>Height of the picture that was measured, px.</summary>
    public required int Height { get; init; }

    /// <summary>Colours.</summary>
    public required ColourMap Colours { get; init; }

    /// <summary>Numbers at the ends of the colours; null = chosen automatically.</summary>
    public ColourRange? Range { get; init; }

    /// <summary>Scale in the plane of the flow, mm per px; null where it is not known.</summary>
    public double? FlowMillimetresPerPixel { get; init; }
}
