namespace BosFlow.Results.Boards;

/// <summary>A place on a sheet of paper; origin at the upper left corner of the sheet, x to the right, y down, m.</summary>
internal readonly record struct SheetPoint(double X, double Y);
