namespace BosFlow.Cli.Printing;

/// <summary>A check of a printed board, as typed.</summary>
internal sealed record BoardCheckRequest
{
    /// <summary>The photo.</summary>
    public required string Photo { get; init; }

    /// <summary>The description; null = not given.</summary>
    public string? Description { get; init; }

    /// <summary>What a steel rule reads along the ruler that runs to the right, mm.</summary>
    public double? RulerXMillimetres { get; init; }

    /// <summary>What a steel rule reads along the ruler that runs down, mm.</summary>
    public double? RulerYMillimetres { get; init; }

    /// <summary>Resolution of a scan, pixels in an inch.</summary>
    public double? ScanDpi { get; init; }

    /// <summary>Whether grey levels are in proportion to the light.</summary>
    public bool IsLinear { get; init; }

    /// <summary>Pictures to write.</summary>
    public IReadOnlyList<string> Outputs { get; init; } = [];

    /// <summary>Whether files that are there may be replaced.</summary>
    public bool Force { get; init; }
}
