namespace BosFlow.Speckle.Boards;

/// <summary>A square mark with an identity at a known place of a board; origin at the upper left corner of the board, x to the right, y down.</summary>
/// <param name="Id">Its identity, a number of <c>FiducialCode</c>.</param>
/// <param name="X">x of its centre, m.</param>
/// <param name="Y">y of its centre, m.</param>
/// <param name="Side">Side of the square with its black border, without the white zone around it, m.</param>
public sealed record Fiducial(int Id, double X, double Y, double Side);
