using System.Text.Json.Nodes;
using BosFlow.Cli.CaseFile.Toml;
using BosFlow.Density;

namespace BosFlow.Cli.CaseFile.Keys;

/// <summary>A key with an axis on the picture, or the word that it shall be found.</summary>
internal sealed class AxisKey : TypedCaseKey<AxisChoice>
{
    /// <summary>The word for an axis that is to be found.</summary>
    public const string Find = "find";

    // Two points closer than this leave the direction to the rounding of the pixel.
    private const double LeastLengthPixels = 10;

    /// <inheritdoc/>
    public override string Kind => "axis";

    /// <inheritdoc/>
    public override string Allowed => "\"find\", or two points on the axis at least 10 px apart, [[x1, y1], [x2, y2]] in px";

    /// <inheritdoc/>
    public override JsonObject Schema() => new()
    {
        ["oneOf"] = new JsonArray(
            new JsonObject { ["const"] = Find },
            new JsonObject
            {
                ["type"] = "array",
                ["minItems"] = 2,
                ["maxItems"] = 2,
                ["items"] = new JsonObject
                {
                    ["type"] = "array",
                    ["items"] = new JsonObject { ["type"] = "number" },
                    ["minItems"] = 2,
                    ["maxItems"] = 2,
                },
            }),
    };

    /// <inheritdoc/>
    protected override string? TryRead(TomlNode node, out AxisChoice? value)
    {
        value = null;
        if (node.Value is string word)
        {
            value = new AxisChoice(null);
            return word == Find ? null : $"is not known; give {Allowed}.";
        }

        if (node.Kind != TomlKind.List)
            return WrongKind(node);
        double[] numbers = [.. node.Items.Where(point => point.Items.Count == 2).SelectMany(point => point.Items).Select(Number).Where(double.IsFinite)];
        if (node.Items.Count != 2 || numbers.Length != 4)
            return $"is not two points; give {Allowed}.";
        var line = new AxisLine(numbers[0], numbers[1], numbers[2], numbers[3]);
        value = new AxisChoice(line);
        return double.Hypot(line.X2 - line.X1, line.Y2 - line.Y1) >= LeastLengthPixels ? null : $"holds two points too close to each other; give {Allowed}.";
    }

    private static double Number(TomlNode node) => node.TryNumber(out double number) ? number : double.NaN;
}
