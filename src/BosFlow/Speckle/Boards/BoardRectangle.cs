namespace BosFlow.Speckle.Boards;

/// <summary>A rectangle on a board or a sheet; origin at the upper left corner of the board or sheet, x to the right, y down.</summary>
/// <param name="Left">Left edge, m.</param>
/// <param name="Top">Upper edge, m.</param>
/// <param name="Width">Width, m.</param>
/// <param name="Height">Height, m.</param>
public readonly record struct BoardRectangle(double Left, double Top, double Width, double Height)
{
    /// <summary>Right edge, m.</summary>
    public double Right => Left + Width;

    /// <summary>Lower edge, m.</summary>
    public double Bottom => Top + Height;

    /// <summary>Area, m2.</summary>
    public double Area => Width * Height;
}
