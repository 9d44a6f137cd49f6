using System.Text.Json.Nodes;
using BosFlow.Pipeline;

namespace BosFlow.Cli.Running;

/// <summary>What a dry run tells of the printed board.</summary>
internal static class BoardWords
{
    /// <summary>Lines of the result; none where no board is described.</summary>
    public static IEnumerable<string> Lines(PreparedRun prepared)
    {
        if (prepared.Identity.Board is not { } board)
            yield break;
        string sizes = string.Join(" and ", board.DotSizes.Select(size => FormattableString.Invariant($"{size.DiameterMetres * 1e3:0.###} mm")));
        yield return FormattableString.Invariant($"Board:     {board.Description}, {board.WidthMetres * 1e3:0.#} x {board.HeightMetres * 1e3:0.#} mm, {board.Dots} dots of {sizes}, coverage {board.Coverage * 100:0.0} %, seed {board.Seed}");
        if (Image(prepared) is { } image)
            yield return FormattableString.Invariant($"           a dot is {string.Join(" and ", image.DotPixels.Select(pixels => FormattableString.Invariant($"{pixels:0.0}")))} px wide in the picture, {image.DotsInWindow:0.#} in a window");
        if (prepared.BoardScale is { } seen)
            yield return $"           it shows {BoardScaleWords.Value(seen)} in the reference ({BoardScaleWords.Basis(seen)})";
    }

    /// <summary>What the user should know of it.</summary>
    public static IReadOnlyList<string> Warnings(PreparedRun prepared) =>
        BoardImage.Warnings(prepared.Identity.Board, prepared.Scale, prepared.Case.Experiment.Displacement.WindowPixels, prepared.BoardScale);

    /// <summary>The same for machines; null where no board is described.</summary>
    public static JsonObject? Document(PreparedRun prepared) => prepared.Identity.Board is not { } board ? null : new JsonObject
    {
        ["description"] = board.Description,
        ["sha256"] = board.Sha256,
        ["dot_mm"] = new JsonArray([.. board.DotSizes.Select(size => (JsonNode)Math.Round(size.DiameterMetres * 1e3, 4))]),
        ["dot_px"] = Image(prepared) is { } image ? new JsonArray([.. image.DotPixels.Select(pixels => (JsonNode)pixels)]) : null,
        ["dots_in_window"] = Image(prepared)?.DotsInWindow,
        ["mm_per_px"] = prepared.BoardScale?.MetresPerPixel * 1e3,
        ["mm_per_px_sigma"] = prepared.BoardScale?.MetresPerPixelSigma * 1e3,
        ["fiducials_found"] = prepared.BoardScale?.Fiducials,
        ["dot_places_found"] = prepared.BoardScale?.DotPatches,
        ["dot_places_sought"] = prepared.BoardScale?.DotPatchesSought,
    };

    private static BoardImage? Image(PreparedRun prepared) => prepared is { Scale: { } scale, Identity.Board: { } board }
        ? BoardImage.Of(board, scale, prepared.Case.Experiment.Displacement.WindowPixels)
        : null;
}
