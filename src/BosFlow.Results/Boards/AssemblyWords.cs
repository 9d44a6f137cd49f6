using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Boards;

/// <summary>How sheets become one board, in words.</summary>
internal static class AssemblyWords
{
    /// <summary>The steps, in order.</summary>
    public static IReadOnlyList<string> Steps(SheetPlan plan)
    {
        Sheet first = plan.Sheets[0];
        string order = string.Join(", ", plan.Sheets.Take(3).Select(sheet => sheet.Name)) + (plan.Sheets.Count > 3 ? " and so on" : string.Empty);
        return
        [
            "Print all pages at 100 % (\u201cactual size\u201d), never \u201cfit to page\u201d, in one go, on one printer and one kind of matt paper. Before you cut, lay a steel rule along both rulers.",
            "Letters are rows from the top, numbers are columns from the left. Each sheet names its neighbours.",
            $"Cut every sheet along its left and its upper crop marks. The strips of {BoardWords.Millimetres(plan.OverlapMetres)} mm at the right and below stay on: they go below the neighbours. Sheets at the right and lower edge of the board are cut along the marks there too.",
            $"Glue row by row from the left: {order}. Begin with {first.Name}. Lay the cut left edge of each sheet on the marks in the strip of the sheet before it, and its cut upper edge on the marks in the strip above.",
            "The dots in the strips are the same as those that cover them: slide the sheet until they meet.",
            "Work on a flat, stiff board, from the middle outward, and measure the width and height of the finished board: its description has them.",
        ];
    }

    /// <summary>Cautions for cutting and glueing.</summary>
    public static IReadOnlyList<string> Cautions { get; } =
    [
        "Knives: cut along a steel rule with a guard, away from hand and body, on a cutting mat; retract or cover the blade when you lay it down.",
        "Spray glue: flammable, and not for the lungs; outdoors or under extraction, away from flames and hot parts.",
        "Laser cutters: enclosure and extraction on, never unattended, fire extinguisher at hand. Foam burns and gives off harmful fumes. Never cut PVC or vinyl: it gives off chlorine compounds.",
        "Follow the makers' instructions and the rules of your workshop and country; they come before this page.",
    ];
}
