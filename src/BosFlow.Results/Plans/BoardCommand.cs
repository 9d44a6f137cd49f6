using System.Globalization;
using BosFlow.Planning;
using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Plans;

/// <summary>The command that prints the board of a plan.</summary>
public static class BoardCommand
{
    // A board a little larger than the view forgives a camera that is a little off; whole centimetres are easy to cut.
    private const double StepMillimetres = 10;
    private const double PrinterMarginMetres = 0.008;

    /// <summary>The command line.</summary>
    /// <param name="plan">The plan.</param>
    public static string Of(PlanResult plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        (double width, double height) = Size(plan);
        PlannedBoard board = plan.Request.Board;
        string coverage = board.Coverage == new PlannedBoard().Coverage ? string.Empty : string.Create(CultureInfo.InvariantCulture, $" --coverage {board.Coverage:0.###}");
        return string.Create(
            CultureInfo.InvariantCulture,
            $"bosflow print --board-mm {width:0}x{height:0} --dot-mm {plan.DotMetres * 1e3:G3}{coverage} --paper A4 --output board.pdf");
    }

    /// <summary>A sentence about paper on which the board is one sheet; empty where none is large enough.</summary>
    /// <param name="plan">The plan.</param>
    public static string OneSheet(PlanResult plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        (double width, double height) = Size(plan);
        double longer = (Math.Max(width, height) / 1e3) + (2 * PrinterMarginMetres);
        double shorter = (Math.Min(width, height) / 1e3) + (2 * PrinterMarginMetres);
        PaperSize? paper = PaperSize.Known.FirstOrDefault(size => size.HeightMetres >= longer && size.WidthMetres >= shorter);
        return paper is null ? string.Empty : $"One sheet of {paper.Name} holds it: --paper {paper.Name}{(width > height ? " --landscape" : string.Empty)} in place of A4.";
    }

    private static (double Width, double Height) Size(PlanResult plan) =>
        (Whole(plan.Request.Board.WidthMetres, plan.ViewAtBoard.Width), Whole(plan.Request.Board.HeightMetres, plan.ViewAtBoard.Height));

    private static double Whole(double? given, double view) =>
        given is double metres ? Math.Round(metres * 1e3) : Math.Ceiling(view * 1e3 / StepMillimetres) * StepMillimetres;
}
