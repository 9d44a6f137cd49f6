using System.Text.Json.Nodes;
using BosFlow.Cli.CaseFile.Toml;
using BosFlow.Footage;

namespace BosFlow.Cli.CaseFile.Keys;

/// <summary>A key with a rectangle of pixels.</summary>
internal sealed class RectangleKey : TypedCaseKey<PixelRectangle>
{
    private const int Largest = 1_000_000;

    /// <inheritdoc/>
    public override string Kind => "rectangle";

    /// <inheritdoc/>
    public override string Allowed => "[x, y, width, height] in whole px, x and y 0 or more, width and height 1 or more";

    /// <inheritdoc/>
    public override JsonObject Schema() => new()
    {
        ["type"] = "array",
        ["items"] = new JsonObject { ["type"] = "integer", ["minimum"] = 0 },
        ["minItems"] = 4,
        ["maxItems"] = 4,
    };

    /// <inheritdoc/>
    protected override string? TryRead(TomlNode node, out PixelRectangle? value)
    {
        value = null;
        if (node.Kind != TomlKind.List)
            return WrongKind(node);
        if (node.Items.Count != 4 || node.Items.Any(item => item.Value is not long and not double) || node.Items.Any(item => item.Kind != TomlKind.Integer))
            return $"is not four whole numbers; give {Allowed}.";
        long[] numbers = [.. node.Items.Select(item => (long)item.Value!)];
        if (numbers[0] < 0 || numbers[1] < 0 || numbers[2] < 1 || numbers[3] < 1 || numbers.Any(number => number > Largest))
            return $"is not a rectangle in a picture; give {Allowed}.";
        value = new PixelRectangle((int)numbers[0], (int)numbers[1], (int)numbers[2], (int)numbers[3]);
        return null;
    }
}
