namespace BosFlow.Inspection;

/// <summary>What a print must keep to be called good. Common practice, no source: each is an order of magnitude above what it does to a result, or what the pattern's own uncertainty hides.</summary>
public static class BoardCheckLimits
{
    /// <summary>Largest deviation of the printer's scale, 1: the scale enters the gradient in proportion.</summary>
    public const double Scale = 0.01;

    /// <summary>Largest difference between the scales in x and y, 1.</summary>
    public const double Anisotropy = 0.005;

    /// <summary>Largest deviation of a dot's diameter, 1.</summary>
    public const double Diameter = 0.10;

    /// <summary>Least share of the dots that must be there, 1.</summary>
    public const double DotsFound = 0.95;

    /// <summary>Least difference of the grey levels of paper and ink, part of full scale.</summary>
    public const double Contrast = 0.4;

    /// <summary>Least width of a dot's image to be measured singly, px.</summary>
    public const double SingleDotPixels = 6;

    /// <summary>Least width of a dot's image to be looked for singly, px.</summary>
    public const double CountedDotPixels = 3;

    /// <summary>Least width of a dot's image for anything, px: below it a fiducial's cells are too small for black and white.</summary>
    public const double LeastDotPixels = 2;

    /// <summary>Fewest fiducials that fix how the board lies.</summary>
    public const int Fiducials = 3;

    /// <summary>Largest RMS of the fiducials' corners around the fit, part of the picture's longer side: beyond, the board is not flat or the lens bends too much.</summary>
    public const double Flatness = 0.001;
}
