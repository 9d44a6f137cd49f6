using System.Globalization;
using System.Text.Json.Nodes;
using BosFlow.Cli.CaseFile.Toml;
using BosFlow.Footage;

namespace BosFlow.Cli.CaseFile.Keys;

/// <summary>A key with a list of polygons.</summary>
internal sealed class PolygonsKey : TypedCaseKey<IReadOnlyList<PixelPolygon>>
{
    /// <inheritdoc/>
    public override string Kind => "list of polygons";

    /// <inheritdoc/>
    public override string Allowed => "a list of polygons, each a list of at least three corners [x, y] in px: [[[0,0], [200,0], [200,90]]]";

    /// <inheritdoc/>
    public override JsonObject Schema() => new()
    {
        ["type"] = "array",
        ["items"] = new JsonObject
        {
            ["type"] = "array",
            ["minItems"] = 3,
            ["items"] = new JsonObject
            {
                ["type"] = "array",
                ["items"] = new JsonObject { ["type"] = "number" },
                ["minItems"] = 2,
                ["maxItems"] = 2,
            },
        },
    };

    /// <inheritdoc/>
    protected override string? TryRead(TomlNode node, out IReadOnlyList<PixelPolygon>? value)
    {
        value = null;
        if (node.Kind != TomlKind.List)
            return WrongKind(node);
        List<PixelPolygon> polygons = [];
        for (int i = 0; i < node.Items.Count; i++)
        {
            if (IsCorner(node.Items[i], out _) || (node.Items[i].Items.Count > 0 && !node.Items[i].Items.All(corner => IsCorner(corner, out _))))
            {
                string oneLevelShort = IsCorner(node.Items[i], out _) ? " (a pair of brackets around each polygon is missing)" : string.Empty;
                return string.Create(CultureInfo.InvariantCulture, $"cannot be read at its polygon {i + 1}{oneLevelShort}; give {Allowed}.");
            }

            if (node.Items[i].Items.Count < 3)
                return string.Create(CultureInfo.InvariantCulture, $"has fewer than three corners in its polygon {i + 1}; give {Allowed}.");
            polygons.Add(new PixelPolygon([.. node.Items[i].Items.Select(Corner)]));
        }

        value = polygons;
        return null;
    }

    private static (double X, double Y) Corner(TomlNode node)
    {
        _ = IsCorner(node, out (double X, double Y) corner);
        return corner;
    }

    private static bool IsCorner(TomlNode node, out (double X, double Y) corner)
    {
        corner = default;
        if (node.Items.Count != 2 || !node.Items[0].TryNumber(out double x) || !node.Items[1].TryNumber(out double y))
            return false;
        corner = (x, y);
        return double.IsFinite(x) && double.IsFinite(y);
    }
}
