namespace BosFlow.Results.Plans;

/// <summary>What varying a plan gave: a table and a picture.</summary>
public sealed record PlanStudy
{
    /// <summary>Name of the picture's file.</summary>
    public required string FileName { get; init; }

    /// <summary>What was varied.</summary>
    public required string Title { get; init; }

    /// <summary>What was found, one or two sentences.</summary>
    public required string Note { get; init; }

    /// <summary>What the picture shows.</summary>
    public required string Caption { get; init; }

    /// <summary>Headings of the table, with units.</summary>
    public required IReadOnlyList<string> Columns { get; init; }

    /// <summary>Cells of the table, one for each column.</summary>
    public required IReadOnlyList<IReadOnlyList<string>> Rows { get; init; }

    /// <summary>The bytes of the picture.</summary>
    public required byte[] Png { get; init; }

    /// <summary>The study for machines.</summary>
    public required System.Text.Json.Nodes.JsonObject Document { get; init; }
}
