using BosFlow.Cli.CaseFile.Keys;

namespace BosFlow.Cli.CaseFile.Sections;

/// <summary>Keys of [limits].</summary>
internal static class LimitsKeys
{
    private const string Name = "limits";

    public static readonly NumberKey LongestBoardDistance = Length("longest_board_distance_mm", "Longest distance from the lens to the board.", 2600);

    public static readonly NumberKey ShortestLensToFlow = Length("shortest_lens_to_flow_mm", "Shortest distance from the lens to the flow, such as what heat allows.", 400);

    public static readonly NumberKey ShortestFlowToBackground = Length("shortest_flow_to_background_mm", "Shortest distance from the flow to the board, such as what heat allows.", 300);

    public static readonly NumberKey LongestFlowToBackground = Length("longest_flow_to_background_mm", "Longest distance from the flow to the board, such as the room between wing and tail.", 1200);

    public static readonly NumberKey LargestBoardWidth = Length("largest_board_width_mm", "Largest width of the board.", 1189);

    public static readonly NumberKey LargestBoardHeight = Length("largest_board_height_mm", "Largest height of the board.", 841);

    public static readonly NumberKey LeastViewWidth = Length("least_view_width_mm", "Least width of the view in the plane of the flow.", 250);

    public static readonly NumberListKey FocalLengths = new()
    {
        Section = Name,
        Name = "focal_lengths_mm",
        Description = "Focal lengths of the lenses at hand; the one of [rig] where not given.",
        Above = 0,
        Maximum = 1e5,
        Example = "[8.0, 12.0, 16.0, 25.0]",
    };

    public static readonly NumberListKey FNumbers = new()
    {
        Section = Name,
        Name = "f_numbers",
        Description = "f-numbers to choose from; the one of [rig] where not given.",
        Above = 0,
        Maximum = 128,
        Example = "[2.8, 4.0, 5.6, 8.0, 11.0]",
    };

    public static readonly CaseSection Section = new(
        Name,
        "What the rig may be, for bosflow plan --optimise; a run ignores it. No line, no limit.",
        [
            LongestBoardDistance, ShortestLensToFlow, ShortestFlowToBackground, LongestFlowToBackground,
            LargestBoardWidth, LargestBoardHeight, LeastViewWidth, FocalLengths, FNumbers,
        ])
    {
        IsListedBriefly = true,
    };

    private static NumberKey Length(string name, string description, double example) => NumberKey.Positive(Name, name, description, 1e7, example);
}
