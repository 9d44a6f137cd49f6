namespace BosFlow.Speckle.Boards;

/// <summary>One disc on a board; origin at the upper left corner of the board, x to the right, y down.</summary>
/// <param name="X">x of its centre, m.</param>
/// <param name="Y">y of its centre, m.</param>
/// <param name="Size">Which of the board's sizes, from 0.</param>
/// <param name="IsLight">Whether it is lighter than the ground.</param>
public readonly record struct PrintedDot(double X, double Y, int Size, bool IsLight);
