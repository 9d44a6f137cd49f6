using System.Text.Json.Nodes;
using BosFlow.Cli.CaseFile.Toml;
using BosFlow.Cli.CommandLine;
using BosFlow.Density;

namespace BosFlow.Cli.CaseFile.Keys;

/// <summary>A key with a list of picture edges.</summary>
internal sealed class EdgesKey : TypedCaseKey<PictureEdge>
{
    private static readonly (string Word, PictureEdge Edge)[] Edges =
        [("left", PictureEdge.Left), ("right", PictureEdge.Right), ("top", PictureEdge.Top), ("bottom", PictureEdge.Bottom)];

    /// <inheritdoc/>
    public override string Kind => "list of edges";

    /// <inheritdoc/>
    public override string Allowed => "a list of \"left\", \"right\", \"top\" and \"bottom\"";

    /// <inheritdoc/>
    public override JsonObject Schema() => new()
    {
        ["type"] = "array",
        ["minItems"] = 1,
        ["uniqueItems"] = true,
        ["items"] = new JsonObject { ["enum"] = new JsonArray([.. Edges.Select(edge => JsonValue.Create(edge.Word))]) },
    };

    /// <inheritdoc/>
    protected override string? TryRead(TomlNode node, out PictureEdge value)
    {
        value = PictureEdge.None;
        if (node.Kind != TomlKind.List)
            return WrongKind(node);
        if (node.Items.Count == 0)
            return $"is empty; give {Allowed}, or leave the key out.";
        foreach (TomlNode item in node.Items)
        {
            if (item.Value is not string word)
                return $"holds something that is no text; give {Allowed}.";
            PictureEdge edge = Array.Find(Edges, known => known.Word == word).Edge;
            if (edge == PictureEdge.None)
            {
                string? near = NearestWord.Find(word, Edges.Select(known => known.Word));
                string cure = near is null ? $"give {Allowed}." : $"did you mean {TomlLiteral.Of(near)}?";
                return $"holds {TomlLiteral.Of(word)}, which is no edge; {cure}";
            }

            value |= edge;
        }

        return null;
    }
}
