namespace BosFlow.Inspection;

/// <summary>What a fiducial tells of the light at its place.</summary>
/// <param name="X">Column of its centre, px.</param>
/// <param name="Y">Row of its centre, px.</param>
/// <param name="White">Light of its white, part of full scale.</param>
/// <param name="Black">Light of its black.</param>
/// <param name="BlurPixels">Standard deviation of the blur of its edges, px; NaN where they are too coarse to tell.</param>
/// <param name="CellPixels">Width of a cell, px.</param>
internal readonly record struct MarkReading(double X, double Y, double White, double Black, double BlurPixels, double CellPixels);
